import {
  FollowUp,
  FollowUpAnswer,
  FollowUpChange,
  sameClientIds,
  sealed,
  sealedJson,
  type SqlRunner,
} from '@studio/database';
import { daysBetween, type PlanStep } from '@studio/follow-up-plans';
import { In, type EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

interface OfClient {
  studioId: string;
  clientId: string;
}

interface OfSession {
  studioId: string;
  fitSessionId: string;
}

/** Days after in the forms that are kept: by the calendar, and in whole weeks. */
export const distance = (from: Date, dueAt: Date, timeZone: string): Pick<FollowUp, 'daysAfter' | 'week'> => {
  const daysAfter = daysBetween(from, dueAt, timeZone);
  return { daysAfter, week: Math.round(daysAfter / 7) };
};

export async function insertFollowUp(
  tx: EntityManager,
  row: OfSession &
    OfClient &
    Pick<
      FollowUp,
      | 'planId'
      | 'planVersion'
      | 'planByPerson'
      | 'fromAppointmentId'
      | 'dueAt'
      | 'daysAfter'
      | 'week'
      | 'state'
      | 'stateReason'
    > & { step: PlanStep; byHand: boolean },
): Promise<string> {
  const { step } = row;
  const { identifiers } = await tx.insert(FollowUp, {
    ...row,
    stepId: step.id,
    countsAsOutcome: step.countsAsOutcome,
  });
  return (identifiers[0] as { id: string }).id;
}

export async function insertChange(
  tx: EntityManager,
  row: Pick<
    FollowUpChange,
    'studioId' | 'followUpId' | 'kind' | 'reason' | 'dueBefore' | 'dueAfter' | 'stateAfter' | 'changedBy'
  >,
): Promise<void> {
  await tx.insert(FollowUpChange, row);
}

/** Locked, so that a link pressed twice is answered once, and what is due waits for a change. */
export function findFollowUpForUpdate(tx: EntityManager, key: Key): Promise<FollowUp | null> {
  return tx.findOne(FollowUp, { where: key, lock: { mode: 'pessimistic_write' } });
}

export function findFollowUp(tx: EntityManager, key: Key): Promise<FollowUp | null> {
  return tx.findOneBy(FollowUp, key);
}

/** Of a session, a client (every record of the person) or a visit: locked, in the order all others lock them in. */
export async function listForUpdate(
  tx: EntityManager,
  of: OfSession | OfClient | { studioId: string; fromAppointmentId: string },
): Promise<FollowUp[]> {
  const where = 'clientId' in of ? await ofPerson(tx, of) : of;
  return tx.find(FollowUp, { where, order: { id: 'ASC' }, lock: { mode: 'pessimistic_write' } });
}

async function ofPerson(tx: EntityManager, of: OfClient) {
  return { studioId: of.studioId, clientId: In(await sameClientIds(tx, of)) };
}

export async function listOfClient(
  tx: EntityManager,
  { studioId, clientId, after, limit }: OfClient & { after: string | null; limit: number },
): Promise<FollowUp[]> {
  const page = tx
    .createQueryBuilder(FollowUp, 'f')
    .where(await ofPerson(tx, { studioId, clientId }))
    .orderBy('f.id')
    .limit(limit);
  if (after !== null) page.andWhere('f.id > :after', { after });
  return page.getMany();
}

export function listChanges(
  tx: EntityManager,
  of: { studioId: string; followUpId: string },
): Promise<FollowUpChange[]> {
  return tx.find(FollowUpChange, { where: of, order: { id: 'ASC' } });
}

export function listAnswers(
  tx: EntityManager,
  of: { studioId: string; followUpId: string },
): Promise<FollowUpAnswer[]> {
  return tx.find(FollowUpAnswer, { where: of, order: { id: 'ASC' } });
}

export async function updateFollowUp(
  tx: EntityManager,
  key: Key,
  fields: Partial<
    Pick<
      FollowUp,
      | 'planId'
      | 'planVersion'
      | 'planByPerson'
      | 'dueAt'
      | 'daysAfter'
      | 'week'
      | 'byHand'
      | 'state'
      | 'stateReason'
      | 'version'
    >
  > & { step?: object },
): Promise<void> {
  await tx.update(FollowUp, key, fields);
}

/** Contact and health data are consented to, and nobody said not to write. */
export async function mayBeAsked(sql: SqlRunner, { studioId, clientId }: OfClient): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 WHERE app_may_contact($1, $2) AND app_consented($1, $2, 'health_data')`,
    [studioId, clientId],
  );
  return rows.length === 1;
}

/** How far each cleat was moved, rearward positive; without those not measured before and after. */
export async function cleatChangesMm(
  sql: SqlRunner,
  { studioId, fitSessionId }: OfSession,
): Promise<number[]> {
  const rows = await sql.query<{ left: number | null; right: number | null }[]>(
    `SELECT l.cleat_behind_mth1_left_mm - f.cleat_behind_mth1_left_mm AS "left",
            l.cleat_behind_mth1_right_mm - f.cleat_behind_mth1_right_mm AS "right"
       FROM positions f
       JOIN positions l ON l.studio_id = f.studio_id AND l.fit_session_id = f.fit_session_id
        AND l.stage = 'left' AND l.superseded_at IS NULL
      WHERE f.studio_id = $1 AND f.fit_session_id = $2 AND f.stage = 'found' AND f.superseded_at IS NULL`,
    [studioId, fitSessionId],
  );
  return rows.flatMap(({ left, right }) => [left, right].filter((change) => change !== null));
}

export async function findSession(
  sql: SqlRunner,
  { studioId, fitSessionId }: OfSession,
): Promise<{ clientId: string; signedAt: Date | null } | null> {
  const rows = await sql.query<{ clientId: string; signedAt: Date | null }[]>(
    `SELECT client_id AS "clientId", signed_at AS "signedAt" FROM fit_sessions WHERE studio_id = $1 AND id = $2`,
    [studioId, fitSessionId],
  );
  return rows[0] ?? null;
}

/** When a visit of the client begins; null when it is nobody's or somebody else's. */
export async function findVisitStart(
  sql: SqlRunner,
  { studioId, clientId, id }: Key & { clientId: string },
): Promise<Date | null> {
  const rows = await sql.query<{ startsAt: Date }[]>(
    `SELECT lower(during) AS "startsAt" FROM appointments
      WHERE studio_id = $1 AND id = $2 AND client_id IN (SELECT id FROM app_same_client($1, $3) AS same (id))`,
    [studioId, id, clientId],
  );
  return rows[0]?.startsAt ?? null;
}

export async function saveDraft(
  tx: EntityManager,
  key: Key,
  saved: { answers: object; urgentRules: string[] },
): Promise<void> {
  await tx.query(`UPDATE follow_ups SET draft = $3, urgent_rules = $4 WHERE studio_id = $1 AND id = $2`, [
    key.studioId,
    key.id,
    sealedJson(saved.answers),
    saved.urgentRules,
  ]);
}

export async function insertAnswers(
  tx: EntityManager,
  of: { studioId: string; followUpId: string },
  answers: Readonly<Record<string, unknown>>,
): Promise<void> {
  const sealedAnswers = Object.entries(answers).map(([question, answer]) => [question, sealed(answer)]);
  await tx.query(
    `INSERT INTO follow_up_answers (studio_id, follow_up_id, question, answer)
     SELECT $1, $2, key, value FROM jsonb_each($3)`,
    [of.studioId, of.followUpId, JSON.stringify(Object.fromEntries(sealedAnswers))],
  );
}

/** The draft goes: what was handed in is kept answer by answer. */
export async function storeAnswers(
  tx: EntityManager,
  key: Key,
  answers: Pick<FollowUp, 'pain' | 'comfort' | 'numbness' | 'power20MinW' | 'saddleHeightMm' | 'screeningId'>,
): Promise<void> {
  await tx.update(FollowUp, key, {
    ...answers,
    draft: {},
    state: 'answered',
    stateReason: null,
    answeredAt: () => 'app_now()',
  });
}
