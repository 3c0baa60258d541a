import {
  IntakeLink,
  opened,
  sameClientIds,
  sealedJson,
  type IntakeDelivery,
  type SqlRunner,
} from '@studio/database';
import { In, IsNull, type EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

interface OfClient {
  studioId: string;
  clientId: string;
}

export async function insertLink(
  tx: EntityManager,
  row: OfClient & {
    questionSetId: string;
    questionSetVersion: string;
    delivery: IntakeDelivery;
    linkHash: Buffer | null;
    validDays: number;
    answers: object;
    createdBy: string;
  },
): Promise<string> {
  const [{ id }] = await tx.query<[{ id: string }]>(
    `INSERT INTO intake_links (studio_id, client_id, question_set_id, question_set_version, delivery, link_hash,
                               expires_at, answers, created_by)
     VALUES ($1, $2, $3, $4, $5, $6, app_now() + make_interval(days => $7), $8, $9) RETURNING id`,
    [
      row.studioId,
      row.clientId,
      row.questionSetId,
      row.questionSetVersion,
      row.delivery,
      row.linkHash,
      row.validDays,
      sealedJson(row.answers),
      row.createdBy,
    ],
  );
  return id;
}

/** What was saved under the newest link of this set that was not handed in: a new link goes on from there. */
export async function findUnfinishedAnswers(
  sql: SqlRunner,
  of: OfClient & { questionSetId: string; questionSetVersion: string },
): Promise<object> {
  const rows = await sql.query<{ answers: object; submitted: boolean }[]>(
    `SELECT answers, submitted_at IS NOT NULL AS submitted FROM intake_links
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND question_set_id = $3 AND question_set_version = $4
      ORDER BY id DESC LIMIT 1`,
    [of.studioId, of.clientId, of.questionSetId, of.questionSetVersion],
  );
  const [newest] = opened(rows, 'answers');
  return newest && !newest.submitted ? newest.answers : {};
}

/** @returns the links withdrawn by it */
export async function revokeOpenLinks(tx: EntityManager, of: OfClient): Promise<void> {
  await tx.update(
    IntakeLink,
    {
      studioId: of.studioId,
      clientId: In(await sameClientIds(tx, of)),
      ...{ revokedAt: IsNull(), submittedAt: IsNull() },
    },
    { revokedAt: () => 'app_now()' },
  );
}

export async function revokeLink(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(IntakeLink, key, { revokedAt: () => 'app_now()' });
}

export function findLink(tx: EntityManager, key: Key): Promise<IntakeLink | null> {
  return tx.findOneBy(IntakeLink, key);
}

/** Locked, so that two pages sent at once are saved one after the other. */
export function findLinkForUpdate(tx: EntityManager, key: Key): Promise<IntakeLink | null> {
  return tx.findOne(IntakeLink, { where: key, lock: { mode: 'pessimistic_write' } });
}

/** Newest first. */
export async function listLinks(tx: EntityManager, of: OfClient): Promise<IntakeLink[]> {
  const clientId = In(await sameClientIds(tx, of));
  return tx.find(IntakeLink, { where: { studioId: of.studioId, clientId }, order: { id: 'DESC' } });
}

export async function saveAnswers(
  tx: EntityManager,
  key: Key,
  saved: { answers: object; urgentRules: string[] },
): Promise<void> {
  await tx.query(
    `UPDATE intake_links SET answers = $3, urgent_rules = $4, saved_at = app_now() WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id, sealedJson(saved.answers), saved.urgentRules],
  );
}

export async function markSubmitted(tx: EntityManager, key: Key, screeningId: string): Promise<void> {
  await tx.update(IntakeLink, key, { screeningId, submittedAt: () => 'app_now()' });
}

export async function findEmail(sql: SqlRunner, of: OfClient): Promise<string | null> {
  const rows = await sql.query<{ email: string | null }[]>(
    `SELECT email FROM clients WHERE studio_id = $1 AND id = $2`,
    [of.studioId, of.clientId],
  );
  return rows[0]?.email ?? null;
}
