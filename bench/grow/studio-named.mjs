import { parse } from 'libpg-query';

/**
 * A name that a query knows a table by. Of a subquery or a CTE the tables within are looked at themselves, and what comes
 * out of it is of their studio.
 *
 * @typedef {{ table: string, isTied: boolean }} Source
 * @typedef {{ sources: Map<string, Source>, outer: Scope | null }} Scope
 * @typedef {{ tenantTables: ReadonlySet<string>, all: Source[], equal: [Source, Source][] }} Found
 * @typedef {Record<string, unknown>} Tree PostgreSQL's parse tree, or part of it
 */

/**
 * The tables of a statement that it does not tie to one studio in its own words: by `studio_id = $1`, or by an equality
 * with the studio of another table that is tied. Row-level security ties them all the same; but what routes statements
 * to the node that holds a studio reads them and knows no policy. An OR is read like an AND.
 *
 * @param {string} statement
 * @param {ReadonlySet<string>} tenantTables
 * @returns {Promise<string[]>} empty when one node can answer it
 */
export async function untiedTables(statement, tenantTables) {
  /** @type {Found} */
  const found = { tenantTables, all: [], equal: [] };
  walk(await parse(statement), { sources: new Map(), outer: null }, found);
  for (let changed = true; changed;) {
    changed = false;
    for (const [one, other] of found.equal) {
      if (one.isTied === other.isTied) continue;
      one.isTied = other.isTied = changed = true;
    }
  }
  return found.all.filter(({ isTied }) => !isTied).map(({ table }) => table);
}

const queries = ['SelectStmt', 'UpdateStmt', 'DeleteStmt', 'InsertStmt'];

/** @param {unknown} node @param {Scope} scope @param {Found} found */
function walk(node, scope, found) {
  if (Array.isArray(node)) for (const one of node) walk(one, scope, found);
  if (typeof node !== 'object' || node === null || Array.isArray(node)) return;
  for (const [kind, value] of Object.entries(/** @type {Tree} */ (node))) {
    const tree = /** @type {Tree} */ (value);
    if (queries.includes(kind)) {
      walkQuery(kind, tree, scope, found);
      continue;
    }
    if (kind === 'A_Expr' && tree['kind'] === 'AEXPR_OP' && nameOf(tree['name']) === '=') {
      equate(tree['lexpr'], tree['rexpr'], scope, found);
    }
    if (kind === 'SubLink') for (const source of studiosIn(tree['testexpr'], scope)) source.isTied = true;
    if (kind === 'JoinExpr' && namesOf(tree['usingClause']).includes('studio_id')) {
      const [first, ...others] = [...sourcesIn(tree['larg'], scope), ...sourcesIn(tree['rarg'], scope)];
      for (const other of others) if (first) found.equal.push([first, other]);
    }
    walk(value, scope, found);
  }
}

/** @param {string} kind @param {Tree} query @param {Scope} outer @param {Found} found */
function walkQuery(kind, query, outer, found) {
  /** @type {Scope} */
  const scope = { sources: new Map(), outer };
  const { relation, withClause, fromClause, usingClause } = query;
  const ctes = /** @type {{ ctes?: { CommonTableExpr: { ctename: string } }[] } | undefined} */ (withClause)
    ?.ctes;
  // A CTE is known by its name in the whole statement.
  for (const { CommonTableExpr } of ctes ?? []) outer.sources.set(CommonTableExpr.ctename, tied());
  if (kind === 'InsertStmt') {
    const columns = /** @type {{ ResTarget: { name: string } }[] | undefined} */ (query['cols']) ?? [];
    const { relname = '' } = /** @type {{ relname?: string }} */ (relation ?? {});
    const names = columns.some(({ ResTarget }) => ResTarget.name === 'studio_id');
    if (found.tenantTables.has(relname)) found.all.push({ table: relname, isTied: names });
  } else {
    if (relation !== undefined) addSource({ RangeVar: relation }, scope, found);
    for (const from of [fromClause, usingClause].flat()) addSource(from, scope, found);
  }
  for (const [name, part] of Object.entries(query)) {
    // The sides of a UNION are queries, too, though the tree does not call them so.
    if (name === 'larg' || name === 'rarg') walkQuery(kind, /** @type {Tree} */ (part), scope, found);
    else if (name !== 'relation') walk(part, scope, found);
  }
}

/** @returns {Source} */
const tied = () => ({ table: '', isTied: true });

/** @param {unknown} from @param {Scope} scope @param {Found} found */
function addSource(from, scope, found) {
  const [[kind, value] = ['', {}]] = Object.entries(/** @type {Tree} */ (from ?? {}));
  const tree = /** @type {Tree} */ (value);
  const { aliasname } = /** @type {{ aliasname?: string }} */ (tree['alias'] ?? {});
  if (kind === 'JoinExpr') {
    addSource(tree['larg'], scope, found);
    addSource(tree['rarg'], scope, found);
  } else if (kind === 'RangeVar') {
    const table = String(tree['relname']);
    const isTenants = found.tenantTables.has(table) && lookUp(table, scope.outer)?.table !== '';
    const source = isTenants ? { table, isTied: false } : tied();
    if (isTenants) found.all.push(source);
    scope.sources.set(aliasname ?? table, source);
  } else if (aliasname !== undefined) scope.sources.set(aliasname, tied());
}

/** @param {string} name @param {Scope | null} scope @returns {Source | undefined} */
const lookUp = (name, scope) =>
  scope === null ? undefined : (scope.sources.get(name) ?? lookUp(name, scope.outer));

/** @param {unknown} from @param {Scope} scope @returns {Source[]} */
function sourcesIn(from, scope) {
  const [[kind, value] = ['', {}]] = Object.entries(/** @type {Tree} */ (from ?? {}));
  const tree = /** @type {Tree} */ (value);
  if (kind === 'JoinExpr') return [...sourcesIn(tree['larg'], scope), ...sourcesIn(tree['rarg'], scope)];
  const { aliasname } = /** @type {{ aliasname?: string }} */ (tree['alias'] ?? {});
  const source = scope.sources.get(aliasname ?? String(tree['relname']));
  return source ? [source] : [];
}

/** @param {unknown} left @param {unknown} right @param {Scope} scope @param {Found} found */
function equate(left, right, scope, found) {
  const [lefts, rights] = [partsOf(left), partsOf(right)];
  for (const [at, part] of lefts.entries()) {
    const other = rights[at];
    for (const [one, against] of [
      [part, other],
      [other, part],
    ]) {
      const studios = studiosIn(one, scope);
      const others = studiosIn(against, scope);
      for (const source of studios) {
        if (isGiven(against, scope)) source.isTied = true;
        for (const equal of others) found.equal.push([source, equal]);
      }
    }
  }
}

/** A studio's own row is known by its id. @param {string} table */
const studioColumn = (table) => (table === 'studios' ? 'id' : 'studio_id');

/** The values of a row, or the one value. @param {unknown} expression @returns {unknown[]} */
function partsOf(expression) {
  const row = /** @type {{ RowExpr?: { args: unknown[] } } | undefined} */ (expression)?.RowExpr;
  return row ? row.args : [expression];
}

/**
 * Whether the statement is given it: a parameter or a constant, or in a function of the database its argument `studio` or a
 * column of the row its trigger was called for; not what a function answers.
 *
 * @param {unknown} expression
 * @param {Scope} scope
 * @returns {boolean}
 */
function isGiven(expression, scope) {
  const tree = /** @type {Tree} */ (expression ?? {});
  if ('TypeCast' in tree) return isGiven(/** @type {Tree} */ (tree['TypeCast'])['arg'], scope);
  const [name = '', column] = namesOf(
    /** @type {{ fields?: unknown } | undefined} */ (tree['ColumnRef'])?.fields,
  );
  if (column !== undefined) return lookUp(name, scope) === undefined;
  return 'ParamRef' in tree || 'A_Const' in tree || name === 'studio';
}

/** Whose `studio_id` stands here. @param {unknown} expression @param {Scope} scope @returns {Source[]} */
function studiosIn(expression, scope) {
  return partsOf(expression).flatMap((part) => {
    const fields = /** @type {{ ColumnRef?: { fields: unknown } } | undefined} */ (part)?.ColumnRef?.fields;
    const names = namesOf(fields);
    const column = names.at(-1);
    const [name] = names;
    const all = names.length === 1 ? [...scope.sources.values()] : [lookUp(name ?? '', scope)];
    return all.flatMap((source) => (source && column === studioColumn(source.table) ? [source] : []));
  });
}

/** @param {unknown} nodes @returns {string[]} */
const namesOf = (nodes) =>
  (Array.isArray(nodes) ? nodes : []).flatMap((/** @type {{ String?: { sval: string } }} */ node) =>
    node.String ? [node.String.sval] : [],
  );

/** @param {unknown} nodes */
const nameOf = (nodes) => namesOf(nodes).at(-1) ?? '';
