import { parse } from 'libpg-query';

/**
 * Migrations with a smaller number were made before the first release: they never meet a table that is in use.
 */
export const firstReleased = 1764000030000;

/**
 * What is refused, and how it is done instead. A migration that has to do it all the same says why:
 * `readonly accepted = { 'drop-column': 'nothing has read it since 2.1' }`.
 */
export const rules = /** @type {const} */ ({
  'add-column-not-null':
    'fails where there are rows: give a constant default, or add NOT NULL … NOT VALID later',
  'add-column-computed': 'writes the whole table anew under a lock: add it without, fill it by a job',
  'add-column-constraint':
    'looks at every row under a lock: add the constraint by itself, NOT VALID, and validate it in a later migration',
  'constraint-validated-at-once':
    'looks at every row under a lock: add it NOT VALID, and validate it in a later migration',
  'validate-with-add': 'still holds the lock it was added under: validate it in a later migration',
  'set-not-null':
    'looks at every row under a lock: ADD CONSTRAINT … NOT NULL column NOT VALID, and validate it in a later migration',
  'constraint-builds-index':
    'builds its index under a lock: build it with CREATE UNIQUE INDEX CONCURRENTLY, then ADD CONSTRAINT … USING INDEX',
  'alter-type': 'writes the whole table anew under a lock: add another column, fill it by a job, change over',
  'index-locks-writers': 'nobody can write meanwhile: CREATE INDEX CONCURRENTLY, in a migration of its own',
  'concurrently-in-transaction': 'cannot run in a transaction: `transaction = false` and `concurrently(…)`',
  'more-outside-transaction':
    'would stay half done when it fails: only indexes are made outside a transaction',
  'drop-column': 'the code that still runs may read it: drop it a release after nothing does',
  'drop-table': 'the code that still runs may read it: drop it a release after nothing does',
  rename: 'the code that still runs knows the old name: add the new beside it, or a view',
  rewrite: 'holds a lock on the whole table for as long as it takes',
  'rows-changed': 'keeps rows locked until it commits: change them by a job, in small steps',
  'cannot-look-inside': 'what a DO block runs cannot be checked: write the statements out',
});

/** @typedef {keyof typeof rules} Rule */
/** @typedef {{ rule: Rule, statement: string }} Danger */
/** @typedef {import('@pgsql/types').Node} Node of PostgreSQL's parse tree */
/** @typedef {import('@pgsql/types').Constraint} Constraint */

/**
 * What of a migration would keep users waiting, or break code that still runs, when its tables are in use. Tables it
 * makes itself nobody uses yet.
 *
 * @param {readonly string[]} statements SQL in the order it is run
 * @param {{ transaction?: boolean, accepted?: Readonly<Partial<Record<Rule, string>>> }} [migration]
 * @returns {Promise<Danger[]>}
 */
export async function dangersOf(statements, { transaction = true, accepted = {} } = {}) {
  /** @type {Seen} */
  const seen = { made: new Set(), added: new Set(), transaction };
  /** @type {Danger[]} */
  const dangers = [];
  for (const statement of statements) {
    const { stmts = [] } = await parse(statement);
    for (const { stmt } of stmts) {
      const broken = stmt === undefined ? [] : rulesBroken(stmt, seen);
      for (const rule of broken.filter((name) => accepted[name] === undefined)) {
        dangers.push({ rule, statement: statement.trim() });
      }
    }
  }
  return dangers;
}

/** @typedef {{ made: Set<string>, added: Set<string>, transaction: boolean }} Seen */

const oneByOne = ['UpdateStmt', 'DeleteStmt'];
const wholeTable = [
  'TruncateStmt',
  'LockStmt',
  'ClusterStmt',
  'VacuumStmt',
  'ReindexStmt',
  'RefreshMatViewStmt',
];
const outsideTransaction = ['IndexStmt', 'DropStmt', 'VariableSetStmt'];

/**
 * @param {Node} stmt
 * @param {Seen} seen
 * @returns {Rule[]}
 */
function rulesBroken(stmt, seen) {
  const [kind = ''] = Object.keys(stmt);
  if (!seen.transaction && !outsideTransaction.includes(kind)) return ['more-outside-transaction'];
  if ('CreateStmt' in stmt) seen.made.add(nameOf(stmt.CreateStmt));
  if ('CreateTableAsStmt' in stmt) seen.made.add(stmt.CreateTableAsStmt.into?.rel?.relname ?? '');
  if ('IndexStmt' in stmt && stmt.IndexStmt.concurrent === true) {
    return seen.transaction ? ['concurrently-in-transaction'] : [];
  }
  if ('DropStmt' in stmt) return stmt.DropStmt.removeType === 'OBJECT_TABLE' ? ['drop-table'] : [];
  if ('DoStmt' in stmt) return ['cannot-look-inside'];
  if (wholeTable.includes(kind)) return ['rewrite'];
  const [own] = Object.values(stmt);
  if (seen.made.has(nameOf(/** @type {WithRelation} */ (own)))) return [];
  if ('AlterTableStmt' in stmt && stmt.AlterTableStmt.objtype === 'OBJECT_TABLE') {
    const { cmds = [] } = stmt.AlterTableStmt;
    return cmds.flatMap((command) => brokenBy(command, nameOf(stmt.AlterTableStmt), seen));
  }
  if ('IndexStmt' in stmt) return ['index-locks-writers'];
  if ('RenameStmt' in stmt) {
    return ['OBJECT_TABLE', 'OBJECT_COLUMN'].includes(stmt.RenameStmt.renameType ?? '') ? ['rename'] : [];
  }
  return oneByOne.includes(kind) ? ['rows-changed'] : [];
}

/** @typedef {{ relation?: import('@pgsql/types').RangeVar }} WithRelation */

/** @param {WithRelation} statement */
const nameOf = ({ relation }) => relation?.relname ?? '';

/**
 * @param {Node} command of ALTER TABLE, on a table that is in use
 * @param {string} table
 * @param {Seen} seen
 * @returns {Rule[]}
 */
function brokenBy(command, table, { added }) {
  if (!('AlterTableCmd' in command)) return [];
  const { subtype, name = '', def = { Null: {} } } = command.AlterTableCmd;
  switch (subtype) {
    case 'AT_AddColumn':
      return 'ColumnDef' in def ? brokenByColumn(def.ColumnDef) : [];
    case 'AT_AddConstraint':
      if (!('Constraint' in def)) return [];
      added.add(`${table}.${def.Constraint.conname ?? ''}`);
      return brokenByConstraint(def.Constraint);
    case 'AT_ValidateConstraint':
      return added.has(`${table}.${name}`) ? ['validate-with-add'] : [];
    case 'AT_SetNotNull':
      return ['set-not-null'];
    case 'AT_AlterColumnType':
      return ['alter-type'];
    case 'AT_DropColumn':
      return ['drop-column'];
    case 'AT_SetLogged':
    case 'AT_SetUnLogged':
    case 'AT_SetTableSpace':
    case 'AT_SetAccessMethod':
      return ['rewrite'];
    default:
      return [];
  }
}

/**
 * @param {Constraint} constraint
 * @returns {Rule[]}
 */
function brokenByConstraint({ contype, skip_validation: notValid, indexname }) {
  if (contype === 'CONSTR_UNIQUE' || contype === 'CONSTR_PRIMARY') {
    return indexname === undefined ? ['constraint-builds-index'] : [];
  }
  if (contype === 'CONSTR_EXCLUSION') return ['constraint-builds-index'];
  return notValid === true ? [] : ['constraint-validated-at-once'];
}

/**
 * @param {import('@pgsql/types').ColumnDef} column
 * @returns {Rule[]}
 */
function brokenByColumn({ constraints = [], typeName }) {
  const given = constraints.flatMap((node) => ('Constraint' in node ? [node.Constraint] : []));
  const has = (/** @type {string[]} */ ...types) => given.some(({ contype = '' }) => types.includes(contype));
  const standard = given.find(({ contype }) => contype === 'CONSTR_DEFAULT')?.raw_expr;
  /** @type {Rule[]} */
  const broken = [];
  if (has('CONSTR_NOTNULL') && standard === undefined) broken.push('add-column-not-null');
  const computed = has('CONSTR_GENERATED', 'CONSTR_IDENTITY') || namesOf(typeName?.names).some(isSerial);
  if (computed || (standard !== undefined && !isSettledOnce(standard))) broken.push('add-column-computed');
  if (has('CONSTR_PRIMARY', 'CONSTR_UNIQUE', 'CONSTR_CHECK', 'CONSTR_FOREIGN')) {
    broken.push('add-column-constraint');
  }
  return broken;
}

/** @param {Node[]} [nodes] */
const namesOf = (nodes = []) =>
  nodes.flatMap((node) => ('String' in node && node.String.sval !== undefined ? [node.String.sval] : []));

/** @param {string} type */
const isSerial = (type) => /^(small|big)?serial\d?$/.test(type);

/** Functions that give every row the same within one statement (PostgreSQL manual, 36.7 "STABLE"). */
const stable = ['now', 'transaction_timestamp', 'statement_timestamp', 'app_now'];

/**
 * Whether a default is worked out once for all rows there are, so that none is written anew.
 *
 * @param {Node} expression
 * @returns {boolean}
 */
function isSettledOnce(expression) {
  if ('A_Const' in expression || 'SQLValueFunction' in expression) return true;
  if ('TypeCast' in expression) {
    const { arg } = expression.TypeCast;
    return arg !== undefined && isSettledOnce(arg);
  }
  if ('A_ArrayExpr' in expression) return (expression.A_ArrayExpr.elements ?? []).every(isSettledOnce);
  if ('FuncCall' in expression) return stable.includes(namesOf(expression.FuncCall.funcname).at(-1) ?? '');
  return false;
}
