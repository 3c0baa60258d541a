// What PostgreSQL did for each statement, as its own auto_explain module tells it in the server's log (PostgreSQL 18
// documentation, F.3): the plan that was really run, with the real values, and how many rows each step of it read.
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/**
 * @typedef {{ table: string, how: string, index: string | null, condition: string, rows: number }} Scan `rows`: read,
 *   whether they were wanted or thrown away; `condition`: what the index was asked for
 * @typedef {{ text: string, scans: Scan[] }} Statement
 * @typedef {{
 *   'Node Type': string, 'Relation Name'?: string, 'Index Name'?: string, 'Index Cond'?: string, 'Actual Rows'?: number,
 *   'Actual Loops'?: number, 'Rows Removed by Filter'?: number, 'Rows Removed by Index Recheck'?: number, Plans?: Node[],
 * }} Node as EXPLAIN (FORMAT JSON) writes it
 */

/**
 * From now on, in new connections.
 *
 * @param {import('pg').Client} admin a superuser, in the database
 * @param {Readonly<Record<string, string>>} [settings] others that the planner is to work under
 */
export async function explainEverything(admin, settings = {}) {
  const all = {
    session_preload_libraries: 'auto_explain',
    'auto_explain.log_min_duration': '0',
    'auto_explain.log_analyze': 'on',
    'auto_explain.log_timing': 'off',
    'auto_explain.log_nested_statements': 'on',
    'auto_explain.log_parameter_max_length': '0',
    'auto_explain.log_format': 'json',
    ...settings,
  };
  /** @type {import('pg').QueryResult<{ name: string }>} */
  const { rows } = await admin.query('SELECT current_database() AS name');
  const name = rows[0]?.name ?? '';
  // A setting of a module has to be known before it can be set.
  await admin.query(`LOAD 'auto_explain'`);
  for (const [setting, value] of Object.entries(all)) {
    await admin.query(`ALTER DATABASE ${name} SET ${setting} = '${value}'`);
  }
}

/** The server's log, read on from where it was left. */
export class PlanLog {
  #file;
  #at;

  /** @param {string} logFile */
  constructor(logFile) {
    this.#file = openSync(logFile, 'r');
    this.#at = fstatSync(this.#file).size;
  }

  /**
   * The statements that have ended since last asked. PostgreSQL writes one down before it answers; one that nobody waited
   * for may still be being written, and is told of the next time.
   *
   * @returns {Statement[]}
   */
  next() {
    const { size } = fstatSync(this.#file);
    const bytes = Buffer.alloc(size - this.#at);
    readSync(this.#file, bytes, 0, bytes.length, this.#at);
    const lines = bytes.toString().replace(/[^\n]+$/, '');
    const finished = lines.replace(/[^\n]* LOG: {2}duration: \S+ ms {2}plan:\n(?:\t(?!\}\n).*\n)*$/, '');
    this.#at += Buffer.byteLength(finished);
    const found = finished.matchAll(/ LOG: {2}duration: \S+ ms {2}plan:\n((?:\t.*\n)+)/g);
    return Array.from(found, ([, plan = '']) => {
      /** @type {unknown} */
      const told = JSON.parse(plan.replaceAll(/^\t/gm, ''));
      const { 'Query Text': text, Plan } = /** @type {{ 'Query Text': string, Plan: Node }} */ (told);
      return { text, scans: scansOf(Plan) };
    });
  }

  close() {
    closeSync(this.#file);
  }
}

/** @param {Node} node @returns {Scan[]} */
function scansOf(node) {
  const { Plans = [], 'Relation Name': table } = node;
  const below = Plans.flatMap(scansOf);
  if (table === undefined || node['Node Type'] === 'ModifyTable') return below;
  const index = Plans.find((one) => one['Node Type'].startsWith('Bitmap')) ?? node;
  const thrownAway = (node['Rows Removed by Filter'] ?? 0) + (node['Rows Removed by Index Recheck'] ?? 0);
  return [
    {
      table,
      how: node['Node Type'],
      index: index['Index Name'] ?? null,
      condition: conditions(index),
      rows: Math.round(((node['Actual Rows'] ?? 0) + thrownAway) * (node['Actual Loops'] ?? 0)),
    },
    ...below,
  ];
}

/** Of an index scan, or of the several that a bitmap is put together from. @param {Node} node @returns {string} */
const conditions = (node) =>
  [node['Index Cond'] ?? '', ...(node.Plans ?? []).map(conditions)].filter((one) => one !== '').join(' ');
