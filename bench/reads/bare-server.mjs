// The baseline: one client by key, as the least that Fastify and pg can do it with.
//   /bare/:id    a prepared select as a role that row-level security does not bind
//   /tenant/:id  the same under row-level security, the statements of the transaction sent together
import Fastify from 'fastify';
import pg from 'pg';

const { BENCH_ADMIN_URL, BENCH_API_URL, BENCH_STUDIO, BENCH_PORT } = process.env;
const bare = new pg.Pool({ connectionString: BENCH_ADMIN_URL, max: 10 });
const tenant = new pg.Pool(
  /** @type {pg.PoolConfig} */ ({ connectionString: BENCH_API_URL, max: 10, pipeline: true }),
);

const byKey = {
  name: 'client_by_key',
  text: `SELECT id, given_name AS "givenName", family_name AS "familyName", email, phone,
                to_char(born_on, 'YYYY-MM-DD') AS "bornOn", tags, note, do_not_contact AS "doNotContact",
                guardian_id AS "guardianId", version,
                to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt"
           FROM clients WHERE studio_id = $1 AND id = $2`,
};

const server = Fastify();
server.get('/bare/:id', async (request) => {
  const { id } = /** @type {{ id: string }} */ (request.params);
  const { rows } = await bare.query({ ...byKey, values: [BENCH_STUDIO, id] });
  return /** @type {object} */ (rows[0]);
});
server.get('/tenant/:id', async (request) => {
  const { id } = /** @type {{ id: string }} */ (request.params);
  const client = await tenant.connect();
  try {
    const [, { rows }] = await Promise.all([
      client.query(`BEGIN READ ONLY; SET LOCAL app.studio_id = '${BENCH_STUDIO ?? ''}'`),
      client.query({ ...byKey, values: [BENCH_STUDIO, id] }),
      client.query('COMMIT'),
    ]);
    return /** @type {object} */ (rows[0]);
  } finally {
    client.release();
  }
});
await server.listen({ host: '127.0.0.1', port: Number(BENCH_PORT) });
