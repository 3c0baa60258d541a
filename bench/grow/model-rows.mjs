import { pipeline } from 'node:stream/promises';
import { text } from 'node:stream/consumers';
import { PassThrough } from 'node:stream';
import copyStreams from 'pg-copy-streams';

/**
 * What a row belongs to, and how often there is such a row: once in a studio, once for each client, or once for each of
 * a client's visits.
 *
 * @typedef {0 | 1 | 2} Level studio, client, visit
 * @typedef {{ level: Level, cells: string[] }} ModelRow cells as COPY writes them
 * @typedef {{
 *   name: string, columns: string[], dated: boolean[], numbered: boolean[], rows: ModelRow[],
 * }} ModelTable `dated`: days and times; `numbered`: counted on within a studio, so that no two rows may have the same
 * @typedef {{ tables: ModelTable[], ids: Record<string, { level: Level, order: number }> }} Model
 */

/** The rows that others hang on; of any other row it follows from the ids that stand in it. */
const fixed = /** @type {Readonly<Record<string, Level>>} */ ({
  studios: 0,
  users: 0,
  clients: 1,
  fit_sessions: 2,
  appointments: 2,
  account_documents: 2,
  payments: 2,
  // A shoe, a bike and a wish have one of each at a time, whatever visit it was at.
  shoe_works: 1,
  shoe_hardware: 1,
  bike_parts: 1,
  slot_offers: 1,
});

export const uuids = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

/**
 * Every row of a studio, of whatever table: a new table needs no line here.
 *
 * @param {import('pg').Client} admin a superuser, whom row-level security does not bind
 * @param {string} studioId
 * @returns {Promise<Model>}
 */
export async function modelOf(admin, studioId) {
  await admin.query(`SET TimeZone = 'UTC'`);
  const tables = [];
  for (const table of await tablesOf(admin)) {
    const studioColumn = table.columns.includes('studio_id') ? 'studio_id' : 'id';
    const rows = await copyOut(
      admin,
      `SELECT ${table.columns.join(', ')} FROM ${table.name} WHERE ${studioColumn} = '${studioId}'`,
    );
    if (rows.length > 0) {
      tables.push({ ...table, rows: rows.map((cells) => ({ level: fixed[table.name] ?? 0, cells })) });
    }
  }
  return { tables, ids: levelled(tables, studioId) };
}

/**
 * Sets each row's level to the highest of what it mentions, until nothing changes any more.
 *
 * @param {ModelTable[]} tables
 * @param {string} studioId
 */
function levelled(tables, studioId) {
  /** @type {Model['ids']} */
  const ids = { [studioId]: { level: 0, order: 0 } };
  const rows = tables.flatMap(({ name, columns, rows: all }) =>
    all.map((row) => ({ row, isFixed: name in fixed, id: row.cells[columns.indexOf('id')] ?? '' })),
  );
  for (const { row, id } of rows) {
    if (id.match(uuids)) ids[id] ??= { level: row.level, order: Object.keys(ids).length };
  }
  for (let changed = true; changed;) {
    changed = false;
    for (const { row, isFixed, id } of rows) {
      if (isFixed) continue;
      const mentioned = row.cells.join('\t').match(uuids) ?? [];
      const level = /** @type {Level} */ (Math.max(...mentioned.map((other) => ids[other]?.level ?? 0)));
      if (level <= row.level) continue;
      row.level = level;
      const own = ids[id];
      if (own) own.level = level;
      changed = true;
    }
  }
  // An id that no row is known by belongs to the widest of what mentions it.
  const known = new Set(Object.keys(ids));
  for (const { row } of rows) {
    for (const id of row.cells.join('\t').match(uuids) ?? []) {
      if (known.has(id)) continue;
      const other = (ids[id] ??= { level: row.level, order: Object.keys(ids).length });
      if (row.level < other.level) other.level = row.level;
    }
  }
  return ids;
}

/** @param {import('pg').Client} admin @returns {Promise<Omit<ModelTable, 'rows'>[]>} */
async function tablesOf(admin) {
  /** @type {import('pg').QueryResult<Omit<ModelTable, 'rows'>>} */
  const { rows } = await admin.query(
    `SELECT c.relname AS name, array_agg(a.attname::text ORDER BY a.attnum) AS columns,
            array_agg(format_type(a.atttypid, NULL) ~ '^(date|timestamp|tstzrange)' ORDER BY a.attnum) AS dated,
            array_agg(EXISTS (
              SELECT FROM pg_index x
               WHERE x.indrelid = c.oid AND x.indisunique AND a.attnum = ANY (x.indkey) AND a.atttypid = 'integer'::regtype
                 AND NOT EXISTS (SELECT FROM pg_attribute other
                                  WHERE other.attrelid = c.oid AND other.attnum = ANY (x.indkey)
                                    AND other.atttypid = 'uuid'::regtype AND other.attname <> 'studio_id')
            ) ORDER BY a.attnum) AS numbered
       FROM pg_class c
       JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
      WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
      GROUP BY c.oid, c.relname
     HAVING c.relname = 'studios' OR bool_or(a.attname = 'studio_id')
      ORDER BY c.relname`,
  );
  return rows;
}

/** @param {import('pg').Client} admin @param {string} query @returns {Promise<string[][]>} */
async function copyOut(admin, query) {
  const out = new PassThrough();
  const [, lines] = await Promise.all([
    pipeline(admin.query(copyStreams.to(`COPY (${query}) TO STDOUT`)), out),
    text(out),
  ]);
  return lines === ''
    ? []
    : lines
        .trimEnd()
        .split('\n')
        .map((line) => line.split('\t'));
}
