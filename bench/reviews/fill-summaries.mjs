import { fromScratch } from './review-by-sql.mjs';

/**
 * Fill the summaries of every studio at once with what the worker would write: a test holds it to the same SQL.
 *
 * @param {import('pg').Client} admin a superuser, whom row-level security does not bind
 */
export async function fillSummaries(admin) {
  const columns = await admin.query(`${fromScratch} LIMIT 0`, [null]);
  const names = columns.fields.map(({ name }) => name).join(', ');
  await admin.query(
    `INSERT INTO outcome_summaries (${names}, computed_at) SELECT ${names}, now() FROM (${fromScratch} ORDER BY signed_at) outcome`,
    [null],
  );
  await admin.query('VACUUM ANALYZE outcome_summaries');
}
