import {
  opened,
  Referral,
  ReferralFinding,
  sameClientIds,
  type ReferralState,
  type ScreeningOccasion,
  type SqlRunner,
} from '@studio/database';
import { withFinding, type Finding, type RaisedIn, type Route } from '@studio/clinical-flags';
import { In, type EntityManager } from 'typeorm';
import { waiting } from './states.js';

interface Key {
  studioId: string;
  id: string;
}

/** The rules that cases of the client wait for a clinician about. */
export function listRulesWaiting(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<{ ruleId: string; referralId: string }[]> {
  return sql.query(
    `SELECT DISTINCT f.rule_id AS "ruleId", r.id AS "referralId"
       FROM referrals r
       JOIN referral_findings k ON k.studio_id = r.studio_id AND k.referral_id = r.id
       JOIN findings f ON f.studio_id = k.studio_id AND f.id = k.finding_id
      WHERE r.studio_id = $1 AND r.client_id IN (SELECT * FROM app_same_client($1, $2)) AND r.state = ANY ($3)`,
    [of.studioId, of.clientId, waiting],
  );
}

export async function insertReferral(
  tx: EntityManager,
  row: { studioId: string; clientId: string; screeningId: string; route: Route; dueAt: Date },
): Promise<string> {
  const { identifiers } = await tx.insert(Referral, row);
  return (identifiers[0] as { id: string }).id;
}

export async function insertReferralFindings(
  tx: EntityManager,
  of: { studioId: string; referralId: string },
  findingIds: readonly string[],
): Promise<void> {
  await tx.insert(
    ReferralFinding,
    findingIds.map((findingId) => ({ ...of, findingId })),
  );
}

/** Tells whether an alert is due: none went out within these hours. */
export async function markAlerted(
  tx: EntityManager,
  of: { studioId: string; referralId: string; notWithinHours: number },
): Promise<boolean> {
  const [, count] = await tx.query<[unknown, number]>(
    `UPDATE referrals SET alerted_at = app_now()
      WHERE studio_id = $1 AND id = $2
        AND (alerted_at IS NULL OR alerted_at < app_now() - make_interval(hours => $3))`,
    [of.studioId, of.referralId, of.notWithinHours],
  );
  return count === 1;
}

/** @returns the cases that are cleared now */
export async function markCleared(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
): Promise<string[]> {
  const [rows] = await tx.query<[{ id: string }[], number]>(
    `UPDATE referrals r SET state = 'cleared', cleared_at = app_now()
      WHERE r.studio_id = $1 AND r.client_id IN (SELECT * FROM app_same_client($1, $2))
        AND r.state NOT IN ('cleared', 'ended')
        AND NOT EXISTS (
          SELECT 1 FROM referral_findings k
           WHERE k.studio_id = r.studio_id AND k.referral_id = r.id
             AND NOT EXISTS (
               SELECT 1 FROM cleared_findings c
                WHERE c.studio_id = k.studio_id AND c.finding_id = k.finding_id))
      RETURNING r.id`,
    [of.studioId, of.clientId],
  );
  return rows.map(({ id }) => id);
}

export function findReferralForUpdate(tx: EntityManager, key: Key): Promise<Referral | null> {
  return tx.findOne(Referral, { where: key, lock: { mode: 'pessimistic_write' } });
}

export function findReferral(tx: EntityManager, key: Key): Promise<Referral | null> {
  return tx.findOneBy(Referral, key);
}

/** Newest first. */
export async function listReferrals(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
): Promise<Referral[]> {
  const clientId = In(await sameClientIds(tx, of));
  return tx.find(Referral, { where: { studioId: of.studioId, clientId }, order: { id: 'DESC' } });
}

/** `now`: columns set to the moment of writing. */
export async function updateReferral(
  tx: EntityManager,
  key: Key,
  fields: Partial<Omit<Referral, 'studioId' | 'id'>> & { state: ReferralState },
): Promise<void> {
  await tx.update(Referral, key, fields);
}

export interface CaseFinding {
  id: string;
  finding: Finding;
  screeningId: string;
  occasion: ScreeningOccasion;
  questionSetId: string;
  questionSetVersion: string;
  answers: Record<string, unknown>;
  screenedAt: Date;
}

/** What a case is about, with the answers it rests on; oldest first, of one screening as it found them. */
export async function listCaseFindings(
  sql: SqlRunner,
  of: { studioId: string; referralId: string },
): Promise<CaseFinding[]> {
  const rows = await sql.query<(Omit<CaseFinding, 'finding'> & RaisedIn)[]>(
    `SELECT f.id, f.rule_id AS "ruleId", s.result, s.id AS "screeningId", s.occasion,
            s.question_set_id AS "questionSetId", s.question_set_version AS "questionSetVersion", s.answers,
            s.created_at AS "screenedAt"
       FROM referral_findings k
       JOIN findings f ON f.studio_id = k.studio_id AND f.id = k.finding_id
       JOIN screenings s ON s.studio_id = f.studio_id AND s.id = f.screening_id
      WHERE k.studio_id = $1 AND k.referral_id = $2
      ORDER BY s.id, f.id`,
    [of.studioId, of.referralId],
  );
  return withFinding(opened(rows, 'answers', 'result'));
}

export interface CaseClearance {
  reason: string;
  clearedByClinician: string;
  registration: string | null;
  scope: string[];
  validUntil: Date | null;
  recordedAt: Date;
}

/** Clearances of any of the case's findings, oldest first. */
export async function listCaseClearances(
  sql: SqlRunner,
  of: { studioId: string; referralId: string },
): Promise<CaseClearance[]> {
  const rows = await sql.query<CaseClearance[]>(
    `SELECT c.reason, c.cleared_by_clinician AS "clearedByClinician", c.registration, c.scope,
            c.valid_until AS "validUntil", c.created_at AS "recordedAt"
       FROM clearances c
      WHERE c.studio_id = $1
        AND EXISTS (
          SELECT 1 FROM cleared_findings x
            JOIN referral_findings k ON k.studio_id = x.studio_id AND k.finding_id = x.finding_id
           WHERE x.studio_id = c.studio_id AND x.clearance_id = c.id AND k.referral_id = $2)
      ORDER BY c.id`,
    [of.studioId, of.referralId],
  );
  return opened(rows, 'reason');
}

export interface Addressed {
  studioName: string;
  timeZone: string;
  clientName: string;
  bornOn: string | null;
}

export async function getAddressed(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<Addressed> {
  const [row] = await sql.query<[Addressed]>(
    `SELECT s.name AS "studioName", s.time_zone AS "timeZone",
            c.given_name || ' ' || c.family_name AS "clientName", to_char(c.born_on, 'YYYY-MM-DD') AS "bornOn"
       FROM clients c JOIN studios s ON s.id = c.studio_id
      WHERE c.studio_id = $1 AND c.id = $2`,
    [of.studioId, of.clientId],
  );
  return row;
}
