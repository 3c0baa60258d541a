import pg from 'pg';

/**
 * @typedef {{ text: string, values: unknown[], rows: readonly Record<string, unknown>[] }} Statement one as it was sent,
 *   and what came back
 */

/**
 * The statements that work sends to PostgreSQL from this process, in order. Of reads that are sent in one message with
 * their studio the studio's setting is not among them.
 *
 * @param {() => Promise<unknown>} work
 * @returns {Promise<Statement[]>}
 */
export async function recordStatements(work) {
  /** @type {Statement[]} */
  const statements = [];
  /** @typedef {{ rows?: Record<string, unknown>[] }} Answer */
  /** @typedef {(...args: unknown[]) => unknown} Query */
  const prototype = /** @type {{ query: Query }} */ (/** @type {unknown} */ (pg.Client.prototype));
  const { query: send } = prototype;
  prototype.query = function (...args) {
    const [query, given] = args;
    const read = query instanceof pg.Query;
    const { text, values = given } = /** @type {{ text?: unknown, values?: unknown }} */ (
      typeof query === 'string' ? { text: query } : query
    );
    const answer = send.apply(this, args);
    if (typeof text !== 'string' || !(read || answer instanceof Promise)) return answer;
    /** @type {Statement} */
    const statement = { text, values: /** @type {unknown[] | undefined} */ (values) ?? [], rows: [] };
    statements.push(statement);
    if (!(answer instanceof Promise)) return answer;
    return answer.then((/** @type {Answer} */ result) => {
      statement.rows = result.rows ?? [];
      return result;
    });
  };
  try {
    await work();
  } finally {
    prototype.query = send;
  }
  return statements;
}

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const instant = /\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(?:\.\d+)?Z/g;

/**
 * Sends recorded statements again, prepared, for another time and another fitter and room: what the first sending was
 * answered with, and ids it made up, are replaced by what this one is answered with and by fresh ones.
 *
 * @param {pg.Client} client
 * @param {readonly Statement[]} statements
 * @param {{ known: ReadonlySet<string>, shiftMs: number, instead: ReadonlyMap<string, string>, newId: () => string }} options
 *   `known`: ids that stay as they are
 */
export async function sendAgain(client, statements, { known, shiftMs, instead, newId }) {
  const replaced = new Map(instead);
  /** @param {unknown} value @returns {unknown} */
  const now = (value) => {
    if (Array.isArray(value)) return value.map(now);
    if (value instanceof Date) return new Date(value.getTime() + shiftMs);
    if (typeof value !== 'string') return value;
    const other = replaced.get(value);
    if (other !== undefined) return other;
    if (uuid.test(value) && !known.has(value)) {
      replaced.set(value, newId());
      return replaced.get(value);
    }
    return value.replace(instant, (text) => new Date(Date.parse(text) + shiftMs).toISOString());
  };
  for (const [index, { text, values, rows }] of statements.entries()) {
    const answer =
      values.length === 0
        ? await client.query(text)
        : await client.query({ name: `statement_${index}`, text, values: values.map(now) });
    for (const [column, before] of Object.entries(rows[0] ?? {})) {
      /** @type {unknown[]} */
      const answered = answer.rows;
      const row = /** @type {Record<string, unknown> | undefined} */ (answered[0]);
      const after = row?.[column];
      if (typeof before === 'string' && uuid.test(before) && typeof after === 'string')
        replaced.set(before, after);
    }
  }
}
