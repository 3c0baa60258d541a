// The baseline: one client by key and a page of clients, as the least that Fastify and pg can do it with.
//   /bare/…      a prepared select as a role that row-level security does not bind
//   /tenant/…    the same under row-level security, the statements of the transaction sent together
//   /again/…     statements that were recorded, prepared and sent one after another, and the bytes they led to
import { readFileSync } from 'node:fs';
import Fastify from 'fastify';
import pg from 'pg';

const { BENCH_ADMIN_URL, BENCH_API_URL, BENCH_STUDIO, BENCH_PORT, BENCH_AGAIN } = process.env;
const bare = new pg.Pool({ connectionString: BENCH_ADMIN_URL, max: 10 });
// Not among the declared options: begin, setting, statement and commit are sent without waiting for each.
const pipelined = { connectionString: BENCH_API_URL, max: 10, pipeline: true };
const tenant = new pg.Pool(pipelined);

const columns = `id, given_name AS "givenName", family_name AS "familyName", email, phone,
  to_char(born_on, 'YYYY-MM-DD') AS "bornOn", tags, note, language,
  do_not_contact AS "doNotContact", coalesce(email = undeliverable_email, false) AS "emailUndeliverable",
  guardian_id AS "guardianId", merged_into AS "mergedInto",
  to_char(restricted_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "restrictedAt", version,
  to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt"`;
const byKey = {
  name: 'client_by_key',
  text: `SELECT ${columns} FROM clients WHERE studio_id = $1 AND id = $2`,
};
const page = {
  name: 'clients_after',
  text: `SELECT ${columns} FROM clients
          WHERE studio_id = $1 AND merged_into IS NULL AND NOT stands_for_erased AND id > $2 ORDER BY id LIMIT 51`,
};

/** @typedef {(query: { name: string, text: string }, id: string) => Promise<unknown[]>} Ask */

/** @type {Ask} */
const askBare = async (query, id) => {
  /** @type {{ rows: unknown[] }} */
  const { rows } = await bare.query({ ...query, values: [BENCH_STUDIO, id] });
  return rows;
};

/** @type {Ask} */
const askTenant = async (query, id) => {
  const client = await tenant.connect();
  try {
    /** @type {[unknown, { rows: unknown[] }, unknown]} */
    const [, { rows }] = await Promise.all([
      client.query(`BEGIN READ ONLY; SET LOCAL app.studio_id = '${BENCH_STUDIO ?? ''}'`),
      client.query({ ...query, values: [BENCH_STUDIO, id] }),
      client.query('COMMIT'),
    ]);
    return rows;
  } finally {
    client.release();
  }
};

const server = Fastify();
for (const [name, ask] of /** @type {const} */ ([
  ['bare', askBare],
  ['tenant', askTenant],
])) {
  server.get(`/${name}/:id`, async (request) => {
    const { id } = /** @type {{ id: string }} */ (request.params);
    return (await ask(byKey, id))[0];
  });
  server.get(`/${name}`, async (request) => {
    const { after } = /** @type {{ after: string }} */ (request.query);
    const rows = await ask(page, after);
    const items = rows.slice(0, 50);
    const last = /** @type {{ id: string } | undefined} */ (items.at(-1));
    return { items, next: rows.length > 50 ? last?.id : null };
  });
}
/** @typedef {{ statements: { text: string, values: unknown[] }[], body: string }} Again */
/** @type {unknown} */
const read = BENCH_AGAIN === undefined ? {} : JSON.parse(readFileSync(BENCH_AGAIN, 'utf8'));
const again = /** @type {Record<string, Again>} */ (read);
for (const [name, { statements, body }] of Object.entries(again)) {
  const prepared = statements.map((statement, index) => ({ name: `${name}_${index}`, ...statement }));
  server.get(`/again/${name}`, async (_request, reply) => {
    const client = await bare.connect();
    try {
      for (const statement of prepared) await client.query(statement);
    } finally {
      client.release();
    }
    return reply.type('application/json; charset=utf-8').send(body);
  });
}
server.get('/memory', () => ({ residentBytes: process.memoryUsage().rss }));
await server.listen({ host: '127.0.0.1', port: Number(BENCH_PORT) });
