import {
  Erasure,
  IdempotencyKey,
  lastOfPerson,
  personCategories,
  personTables,
  RightsRequest,
  type PersonCategory,
  type PersonTable,
  type SqlRunner,
} from '@studio/database';
import type { EntityManager } from 'typeorm';

/** All records of one person. */
export interface Person {
  readonly studioId: string;
  readonly clientIds: readonly string[];
}

export function findRequestForUpdate(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<RightsRequest | null> {
  return tx.findOne(RightsRequest, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function markDone(tx: EntityManager, request: RightsRequest): Promise<void> {
  const { studioId, id, version } = request;
  await tx.update(RightsRequest, { studioId, id }, { state: 'done', version: version + 1 });
}

/** What decides how long a person's data has to be kept. */
export interface KeptFacts {
  readonly country: string;
  readonly boundByHealthLaw: boolean;
  readonly today: string;
  /** By the studio's calendar; null where there is no such record. */
  readonly lastHealthEntryOn: string | null;
  readonly lastAccountOn: string | null;
  readonly bornOn: string | null;
}

/** Null while the studio has not chosen by which law it keeps records. */
export async function findKeptFacts(sql: SqlRunner, of: Person): Promise<KeptFacts | null> {
  const rows = await sql.query<KeptFacts[]>(
    `WITH sessions AS (SELECT * FROM fit_sessions WHERE studio_id = $1 AND client_id = ANY ($2)),
          health (at) AS (
            SELECT greatest(created_at, signed_at) FROM sessions
            UNION ALL SELECT a.created_at FROM amendments a JOIN sessions s ON s.studio_id = a.studio_id AND s.id = a.fit_session_id
            UNION ALL SELECT created_at FROM screenings WHERE studio_id = $1 AND client_id = ANY ($2)
            UNION ALL SELECT created_at FROM clearances WHERE studio_id = $1 AND client_id = ANY ($2)
            UNION ALL SELECT answered_at FROM follow_ups WHERE studio_id = $1 AND client_id = ANY ($2)
            UNION ALL SELECT greatest(created_at, handed_over_at, acknowledged_at, cleared_at, ended_at)
                        FROM referrals WHERE studio_id = $1 AND client_id = ANY ($2)),
          account (at) AS (
            SELECT issued_at FROM account_documents WHERE studio_id = $1 AND client_id = ANY ($2) AND state = 'issued'
            UNION ALL SELECT created_at FROM payments WHERE studio_id = $1 AND client_id = ANY ($2))
     SELECT r.country, r.bound_by_health_law AS "boundByHealthLaw", to_char(app_now(), 'YYYY-MM-DD') AS today,
            to_char((SELECT max(at) FROM health) AT TIME ZONE s.time_zone, 'YYYY-MM-DD') AS "lastHealthEntryOn",
            to_char((SELECT max(at) FROM account) AT TIME ZONE s.time_zone, 'YYYY-MM-DD') AS "lastAccountOn",
            to_char((SELECT max(born_on) FROM clients WHERE studio_id = $1 AND id = ANY ($2)), 'YYYY-MM-DD') AS "bornOn"
       FROM retention_choices r JOIN studios s ON s.id = r.studio_id
      WHERE r.studio_id = $1`,
    [of.studioId, of.clientIds],
  );
  return rows[0] ?? null;
}

/** What is planned already stays as it was planned. */
export async function insertErasures(
  tx: EntityManager,
  { studioId, clientIds }: Person,
  requestId: string,
  parts: readonly Pick<Erasure, 'category' | 'eraseOn' | 'keptByLaw'>[],
): Promise<void> {
  const rows = clientIds.flatMap((clientId) =>
    parts.map((part) => ({ studioId, clientId, requestId, ...part })),
  );
  await tx.createQueryBuilder().insert().into(Erasure).values(rows).orIgnore().execute();
}

/** What is to be erased by now. The same days are what lets the database do it. */
export async function listDue(sql: SqlRunner, of: Person): Promise<PersonCategory[]> {
  const rows = await sql.query<{ category: PersonCategory }[]>(
    `SELECT category FROM erasures WHERE studio_id = $1 AND client_id = ANY ($2)
      GROUP BY category HAVING bool_and(erase_on <= app_now()::date) AND bool_or(erased_at IS NULL)`,
    [of.studioId, of.clientIds],
  );
  const due = rows.map(({ category }) => category);
  return personCategories.filter((category) => due.includes(category));
}

export interface StoredIds {
  readonly files: readonly string[];
  readonly fitSheets: readonly { readonly id: string; readonly figures: readonly string[] }[];
  readonly exports: readonly string[];
}

/** Rows with bytes in the storage. */
export async function findStored(sql: SqlRunner, of: Person): Promise<StoredIds> {
  const [row] = await sql.query<[StoredIds]>(
    `SELECT ARRAY(SELECT id FROM files WHERE studio_id = $1 AND client_id = ANY ($2)) AS files,
            coalesce((SELECT jsonb_agg(jsonb_build_object('id', h.id, 'figures', h.figures))
                        FROM fit_sheets h JOIN fit_sessions s ON s.studio_id = h.studio_id AND s.id = h.fit_session_id
                       WHERE h.studio_id = $1 AND s.client_id = ANY ($2)), '[]') AS "fitSheets",
            ARRAY(SELECT id FROM person_exports WHERE studio_id = $1 AND client_id = ANY ($2)) AS exports`,
    [of.studioId, of.clientIds],
  );
  return row;
}

export async function listSessionIds(sql: SqlRunner, of: Person): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    'SELECT id FROM fit_sessions WHERE studio_id = $1 AND client_id = ANY ($2)',
    [of.studioId, of.clientIds],
  );
  return rows.map(({ id }) => id);
}

/** Take a part of the person's data away, table by table. */
export async function eraseCategory(tx: EntityManager, of: Person, category: PersonCategory): Promise<void> {
  if (category === 'health_record') await dropUncounted(tx, of);
  const [{ nobody }] = await tx.query<[{ nobody: string }]>('SELECT gen_random_uuid() AS nobody');
  for (const table of personTables) if (table.category === category) await erase(tx, of, table, nobody);
  await tx.query(
    `UPDATE erasures SET erased_at = app_now()
      WHERE studio_id = $1 AND client_id = ANY ($2) AND category = $3 AND erased_at IS NULL`,
    [of.studioId, of.clientIds, category],
  );
}

/** An outcome nobody was due to be asked about yet counts in no review, and never will. */
async function dropUncounted(tx: EntityManager, of: Person): Promise<void> {
  await tx.query(
    `DELETE FROM outcome_summaries
      WHERE studio_id = $1 AND client_id = ANY ($2) AND (first_due_at IS NULL OR first_due_at > app_now())`,
    [of.studioId, of.clientIds],
  );
}

/** Whether nothing is left but what goes last. */
export async function isAllElseErased(sql: SqlRunner, of: Person): Promise<boolean> {
  const [{ all }] = await sql.query<[{ all: boolean }]>(
    `SELECT bool_and(erased_at IS NOT NULL) AS all FROM erasures WHERE studio_id = $1 AND client_id = ANY ($2)`,
    [of.studioId, of.clientIds],
  );
  return all;
}

/** The person's own rows; what others need of them becomes nobody's. */
export async function eraseLast(tx: EntityManager, of: Person): Promise<void> {
  const [{ id }] = await tx.query<[{ id: string }]>(
    `INSERT INTO clients (studio_id, given_name, family_name, stands_for_erased)
     VALUES ($1, 'Erased', 'client', true)
         ON CONFLICT (studio_id) WHERE stands_for_erased DO UPDATE SET stands_for_erased = true RETURNING id`,
    [of.studioId],
  );
  for (const table of lastOfPerson) await erase(tx, of, table, id);
}

/** Answers kept for a day for who repeats a request: they hold what was written. */
export async function forgetAnswers(tx: EntityManager, studioId: string): Promise<void> {
  await tx.delete(IdempotencyKey, { studioId });
}

async function erase(
  tx: EntityManager,
  { studioId, clientIds }: Person,
  { table, rows, erase: how }: Omit<PersonTable, 'category'>,
  nobody: string,
): Promise<void> {
  const where = `WHERE t.studio_id = $1 AND ${rows}`;
  const statement =
    how === 'delete'
      ? `DELETE FROM ${table} t ${where}`
      : `UPDATE ${table} t SET ${Object.entries(how.set)
          .map(([column, value]) => `${column} = ${value}`)
          .join(', ')} ${where}`;
  await tx.query(statement, [studioId, clientIds, ...(statement.includes('$3') ? [nobody] : [])]);
}

/** Requests of which something is to be erased by now, of different persons. */
export async function listDueRequests(sql: SqlRunner, studioId: string): Promise<string[]> {
  const rows = await sql.query<{ requestId: string }[]>(
    `SELECT DISTINCT request_id AS "requestId" FROM erasures
      WHERE studio_id = $1 AND erased_at IS NULL AND client_id IS NOT NULL AND erase_on <= app_now()::date`,
    [studioId],
  );
  return rows.map(({ requestId }) => requestId);
}
