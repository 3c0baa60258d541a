import type { ImportedFields } from './entities/client-import.js';
import type { SqlRunner } from './sql-runner.js';

/**
 * For each of the persons told of, the client of the studio who is likeliest the same; persons without one are left
 * out. An address, a number or a birth date in common is not enough where the names are nothing alike.
 */
export async function likelyClients(
  sql: SqlRunner,
  studioId: string,
  persons: readonly { readonly key: string; readonly fields: ImportedFields }[],
): Promise<Map<string, string>> {
  const told = persons.map(({ key, fields }) => ({
    key,
    name: `${fields.givenName} ${fields.familyName}`.toLowerCase(),
    email: fields.email ?? null,
    phone: fields.phoneE164 ?? null,
    born: fields.bornOn ?? null,
  }));
  const rows = await sql.query<{ key: string; id: string }[]>(
    `SELECT DISTINCT ON (key) key, id
       FROM jsonb_to_recordset($2::jsonb) AS told (key text, name text, email text, phone text, born date)
      CROSS JOIN LATERAL (
        SELECT c.id, similarity(lower(c.given_name || ' ' || c.family_name), told.name) AS alike,
               coalesce((c.email = told.email)::int, 0) + coalesce((c.phone_e164 = told.phone)::int, 0)
                 + coalesce((c.born_on = told.born)::int, 0)
                 + (lower(c.given_name || ' ' || c.family_name) = told.name)::int AS same
          FROM clients c
         WHERE c.studio_id = $1 AND c.merged_into IS NULL AND NOT c.stands_for_erased
           AND (c.email = told.email OR c.phone_e164 = told.phone
                OR lower(c.given_name || ' ' || c.family_name) % told.name)) AS one
      WHERE alike >= 0.6 OR (alike >= 0.3 AND same > 0) OR same > 1
      ORDER BY key, same DESC, alike DESC, id`,
    [studioId, JSON.stringify(told)],
  );
  return new Map(rows.map(({ key, id }) => [key, id]));
}
