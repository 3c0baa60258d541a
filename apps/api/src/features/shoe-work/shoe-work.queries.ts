import {
  FitSession,
  ShoeWork,
  ShoeWorkChange,
  ShoeWorkConsent,
  ShoeWorkPart,
  ShoeWorkPhoto,
  ShoeWorkStep,
  StoredFile,
  utcText,
  type SqlRunner,
  whenGiven,
  survivorOf,
} from '@studio/database';
import type { DoneStep, Shoe, ShoeWorkState } from '@studio/shoe-work';
import { In, type EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}
interface OfCase {
  readonly studioId: string;
  readonly shoeWorkId: string;
}

/** What has cured is to be collected. */
export const stateNow = (now: Date, { state, toCollectAt }: ShoeWork): ShoeWorkState =>
  state === 'curing' && toCollectAt !== null && toCollectAt <= now ? 'to_collect' : state;
const stateNowSql = `CASE WHEN w.state = 'curing' AND w.to_collect_at <= app_now() THEN 'to_collect' ELSE w.state END`;

export function findSession(tx: EntityManager, key: Key): Promise<FitSession | null> {
  return tx.findOneBy(FitSession, key);
}

/** Whether the client has that visit. */
export async function isVisitOf(
  sql: SqlRunner,
  of: { studioId: string; clientId: string; appointmentId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM appointments
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND id = $3`,
    [of.studioId, of.clientId, of.appointmentId],
  );
  return rows.length === 1;
}

export async function insertCase(
  tx: EntityManager,
  row: Pick<
    ShoeWork,
    | 'studioId'
    | 'clientId'
    | 'fitSessionId'
    | 'shoeId'
    | 'appointmentId'
    | 'way'
    | 'fixing'
    | 'shoeFacts'
    | 'procedureVersion'
    | 'openedBy'
  >,
): Promise<string> {
  const { identifiers } = await tx.insert(ShoeWork, row);
  return (identifiers[0] as { id: string }).id;
}

export function findCase(tx: EntityManager, key: Key): Promise<ShoeWork | null> {
  return tx.findOneBy(ShoeWork, key);
}

/** Locked: two who work on it wait for each other. */
export function findCaseForUpdate(tx: EntityManager, key: Key): Promise<ShoeWork | null> {
  return tx.findOne(ShoeWork, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function updateCase(
  tx: EntityManager,
  { studioId, id, version }: ShoeWork,
  fields: Partial<
    Pick<ShoeWork, 'state' | 'begunAt' | 'begunBy' | 'benchId' | 'curing' | 'cureSource' | 'toCollectAt'>
  >,
): Promise<void> {
  await tx.update(ShoeWork, { studioId, id }, { ...fields, version: version + 1 });
}

export async function insertChange(
  tx: EntityManager,
  row: Pick<ShoeWorkChange, 'studioId' | 'shoeWorkId' | 'state' | 'reason' | 'changedBy'>,
): Promise<void> {
  await tx.insert(ShoeWorkChange, row);
}

export function listChanges(tx: EntityManager, of: OfCase): Promise<ShoeWorkChange[]> {
  return tx.find(ShoeWorkChange, { where: of, order: { id: 'ASC' } });
}

export async function insertConsent(
  tx: EntityManager,
  row: Omit<ShoeWorkConsent, 'id' | 'createdAt'>,
): Promise<void> {
  await tx.insert(ShoeWorkConsent, row);
}

export function findConsent(tx: EntityManager, of: OfCase): Promise<ShoeWorkConsent | null> {
  return tx.findOneBy(ShoeWorkConsent, of);
}

export interface StepRow extends DoneStep {
  readonly values: Record<string, unknown>;
  readonly photoIds: string[];
  readonly doneBy: string;
  readonly doneAt: string;
}

/** In the order they were done. */
export function listSteps(sql: SqlRunner, of: OfCase): Promise<StepRow[]> {
  return sql.query<StepRow[]>(
    `SELECT s.step, s.shoe, s."values", s.done_by AS "doneBy", ${utcText('s.created_at')} AS "doneAt",
            ARRAY(SELECT p.file_id FROM shoe_work_photos p
                   WHERE p.studio_id = s.studio_id AND p.step_id = s.id ORDER BY p.file_id) AS "photoIds"
       FROM shoe_work_steps s WHERE s.studio_id = $1 AND s.shoe_work_id = $2 ORDER BY s.id`,
    [of.studioId, of.shoeWorkId],
  );
}

export async function insertStep(
  tx: EntityManager,
  row: OfCase & { step: string; shoe: Shoe; values: object; doneBy: string },
  photoIds: readonly string[],
): Promise<void> {
  const { studioId } = row;
  const { identifiers } = await tx.insert(ShoeWorkStep, row);
  const stepId = (identifiers[0] as { id: string }).id;
  if (photoIds.length > 0) {
    await tx.insert(
      ShoeWorkPhoto,
      photoIds.map((fileId) => ({ studioId, stepId, fileId })),
    );
  }
}

/** How many of the files are photographs of the pair. */
export function countPhotos(
  tx: EntityManager,
  of: { studioId: string; shoeId: string; fileIds: readonly string[] },
): Promise<number> {
  const mediaType = In(['image/jpeg', 'image/png', 'image/webp']);
  return tx.countBy(StoredFile, {
    ...{ studioId: of.studioId, shoeId: of.shoeId, mediaType },
    id: In([...of.fileIds]),
  });
}

export interface UsedPart {
  readonly partId: string;
  readonly name: string;
  readonly quantity: number;
}

const partsSql = `SELECT p.part_id AS "partId", parts.name, p.quantity
   FROM shoe_work_parts p JOIN parts ON parts.studio_id = p.studio_id AND parts.id = p.part_id`;

export function listParts(sql: SqlRunner, of: OfCase): Promise<UsedPart[]> {
  return sql.query<UsedPart[]>(`${partsSql} WHERE p.studio_id = $1 AND p.shoe_work_id = $2 ORDER BY p.id`, [
    of.studioId,
    of.shoeWorkId,
  ]);
}

export async function replaceParts(
  tx: EntityManager,
  of: OfCase & { recordedBy: string },
  parts: readonly { partId: string; quantity: number }[],
): Promise<void> {
  const { studioId, shoeWorkId } = of;
  await tx.delete(ShoeWorkPart, { studioId, shoeWorkId });
  if (parts.length === 0) return;
  await tx.insert(
    ShoeWorkPart,
    parts.map(({ partId, quantity }) => ({ ...of, partId, quantity })),
  );
}

export interface DeskRow {
  readonly id: string;
  readonly clientId: string;
  readonly clientName: string;
  readonly shoes: string;
  readonly state: ShoeWorkState;
  readonly openedAt: string;
  readonly benchId: string | null;
  readonly toCollectAt: string | null;
  readonly collectedAt: string | null;
  readonly parts: UsedPart[];
  readonly version: number;
}

const deskColumns = `w.id, w.client_id AS "clientId", c.given_name || ' ' || c.family_name AS "clientName",
  s.name AS shoes, ${stateNowSql} AS state, ${utcText('w.created_at')} AS "openedAt", w.bench_id AS "benchId",
  ${utcText('w.to_collect_at')} AS "toCollectAt",
  (SELECT ${utcText('max(k.created_at)')} FROM shoe_work_changes k
    WHERE k.studio_id = w.studio_id AND k.shoe_work_id = w.id AND k.state = 'collected') AS "collectedAt",
  coalesce((SELECT json_agg(used) FROM (${partsSql}
    WHERE p.studio_id = w.studio_id AND p.shoe_work_id = w.id ORDER BY p.id) AS used), '[]') AS parts, w.version`;
const deskTables = (works: string): string => `${works} w
  JOIN shoes s ON s.studio_id = w.studio_id AND s.id = w.shoe_id
  JOIN clients of ON of.studio_id = w.studio_id AND of.id = w.client_id
  JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}`;

export async function findDeskRow(sql: SqlRunner, key: Key): Promise<DeskRow | null> {
  const rows = await sql.query<DeskRow[]>(
    `SELECT ${deskColumns} FROM ${deskTables('shoe_works')} WHERE w.studio_id = $1 AND w.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** Oldest first. The page is chosen before its clients are looked up. */
export function listDeskRows(
  sql: SqlRunner,
  page: {
    studioId: string;
    clientId: string | null;
    fitSessionId: string | null;
    state: ShoeWorkState | null;
    after: string | null;
    limit: number;
  },
): Promise<DeskRow[]> {
  const chosen = `(SELECT * FROM shoe_works w
      WHERE w.studio_id = $1 AND ${whenGiven(page.clientId, '$2::uuid', 'w.client_id IN (SELECT * FROM app_same_client($1, $2))')}
        AND ${whenGiven(page.fitSessionId, '$3::uuid', 'w.fit_session_id = $3')}
        AND ${whenGiven(page.state, '$4::text', `${stateNowSql} = $4`)}
        AND ${whenGiven(page.after, '$5::uuid', 'w.id > $5')}
      ORDER BY w.id LIMIT $6)`;
  return sql.query<DeskRow[]>(`SELECT ${deskColumns} FROM ${deskTables(chosen)} ORDER BY w.id`, [
    page.studioId,
    page.clientId,
    page.fitSessionId,
    page.state,
    page.after,
    page.limit,
  ]);
}

export async function benchExists(sql: SqlRunner, key: Key): Promise<boolean> {
  const rows = await sql.query<unknown[]>('SELECT 1 FROM benches WHERE studio_id = $1 AND id = $2', [
    key.studioId,
    key.id,
  ]);
  return rows.length === 1;
}

/** Since when it cures, or cured; null when nothing does. */
export async function curesSince(sql: SqlRunner, key: Key): Promise<Date | null> {
  const rows = await sql.query<{ since: Date | null }[]>(
    'SELECT lower(curing) AS since FROM shoe_works WHERE studio_id = $1 AND id = $2',
    [key.studioId, key.id],
  );
  return rows[0]?.since ?? null;
}

/** What else takes the bench first, from now until then. */
export async function findBenchClash(
  sql: SqlRunner,
  wish: { studioId: string; benchId: string; until: Date; exceptId: string },
): Promise<{ startsAt: string; endsAt: string } | null> {
  const rows = await sql.query<{ startsAt: string; endsAt: string }[]>(
    `SELECT ${utcText('lower(during)')} AS "startsAt", ${utcText('upper(during)')} AS "endsAt" FROM bench_times
      WHERE studio_id = $1 AND bench_id = $2 AND during && tstzrange(app_now(), $3) AND id <> $4
      ORDER BY lower(during) LIMIT 1`,
    [wish.studioId, wish.benchId, wish.until, wish.exceptId],
  );
  return rows[0] ?? null;
}

/** Whether shoes of the session's fit went home worked on. */
export async function anyCollected(
  sql: SqlRunner,
  of: { studioId: string; fitSessionId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM shoe_works WHERE studio_id = $1 AND fit_session_id = $2 AND state IN ('collected', 'done') LIMIT 1`,
    [of.studioId, of.fitSessionId],
  );
  return rows.length === 1;
}
