import {
  ClearedFinding,
  Clearance,
  Client,
  FindingRow,
  opened,
  sameClientIds,
  Screening,
  type ScreeningOccasion,
  type SqlRunner,
} from '@studio/database';
import { withFinding, type Evaluation, type Finding } from '@studio/clinical-flags';
import { In, type EntityManager } from 'typeorm';
import type { AnsweredScreening } from './given-answers.js';
import type { NewestScreening, RaisedFinding } from './permission-in-force.js';
import type { ScreeningRecord } from './screenings.dto.js';

interface OfClient {
  studioId: string;
  clientId: string;
}

/** The activities that clearances standing now allow again for the finding `f`; null when none speaks of it. */
const clearedScope = `(
  SELECT array_agg(DISTINCT activity)
    FROM cleared_findings k
    JOIN clearances c ON c.studio_id = k.studio_id AND c.id = k.clearance_id
   CROSS JOIN unnest(c.scope) AS activity
   WHERE k.studio_id = f.studio_id AND k.finding_id = f.id
     AND (c.valid_until IS NULL OR c.valid_until > app_now()))`;

/** The findings that the screening `s` raised, newest first. */
const raised = `coalesce((
  SELECT jsonb_agg(jsonb_build_object('id', f.id, 'ruleId', f.rule_id, 'clearedScope', ${clearedScope})
                   ORDER BY f.id DESC)
    FROM findings f WHERE f.studio_id = s.studio_id AND f.screening_id = s.id), '[]')`;

const columns = `s.id, s.client_id AS "clientId", s.occasion, s.question_set_id AS "questionSetId",
  s.question_set_version AS "questionSetVersion", s.answers, s.result, s.created_at AS "createdAt",
  ${raised} AS raised`;

/** Until the transaction ends, another screening of this client waits, under whichever of its records. */
export async function lockClient(tx: EntityManager, key: OfClient): Promise<void> {
  await tx.find(Client, {
    select: { id: true },
    where: { studioId: key.studioId, id: In(await sameClientIds(tx, key)) },
    order: { id: 'ASC' },
    lock: { mode: 'for_no_key_update' },
  });
}

export async function insertScreening(
  tx: EntityManager,
  row: {
    studioId: string;
    clientId: string;
    occasion: ScreeningOccasion;
    questionSetId: string;
    questionSetVersion: string;
    answers: object;
    evaluation: Evaluation;
    takenBy: string | null;
  },
): Promise<string> {
  const { evaluation, ...rest } = row;
  const { identifiers } = await tx.insert(Screening, {
    ...rest,
    ruleSetVersion: evaluation.ruleSetVersion,
    result: evaluation,
    weighed: weighed(evaluation),
    permissionLevel: evaluation.permission.level,
  });
  return (identifiers[0] as { id: string }).id;
}

/** Without what found nothing, which is most and bars nothing. Whatever else there may be stays. */
const weighed = (evaluation: Evaluation): Evaluation => ({
  ...evaluation,
  findings: evaluation.findings.filter(({ result }) => result !== 'clear' && result !== 'not_applicable'),
});

export async function insertFindings<Raised extends Pick<Finding, 'ruleId'>>(
  tx: EntityManager,
  of: OfClient & { screeningId: string },
  raised: readonly Raised[],
): Promise<{ id: string; finding: Raised }[]> {
  if (raised.length === 0) return [];
  const { identifiers } = await tx.insert(
    FindingRow,
    raised.map(({ ruleId }) => ({ ...of, ruleId })),
  );
  return raised.map((finding, at) => ({ id: (identifiers[at] as { id: string }).id, finding }));
}

export async function findScreening(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<ScreeningRecord | null> {
  const rows = await sql.query<ScreeningRecord[]>(
    `SELECT ${columns} FROM screenings s WHERE s.studio_id = $1 AND s.id = $2`,
    [key.studioId, key.id],
  );
  return opened(rows, 'answers', 'result')[0] ?? null;
}

/** Newest first. */
export async function listScreenings(sql: SqlRunner, key: OfClient): Promise<ScreeningRecord[]> {
  const rows = await sql.query<ScreeningRecord[]>(
    `SELECT ${columns} FROM screenings s
      WHERE s.studio_id = $1 AND s.client_id IN (SELECT * FROM app_same_client($1, $2)) ORDER BY s.id DESC`,
    [key.studioId, key.clientId],
  );
  return opened(rows, 'answers', 'result');
}

/** What the client answered so far, oldest first. */
export async function listAnswered(sql: SqlRunner, key: OfClient): Promise<AnsweredScreening[]> {
  const rows = await sql.query<AnsweredScreening[]>(
    `SELECT question_set_id AS "questionSetId", question_set_version AS "questionSetVersion", answers
       FROM screenings
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) ORDER BY id`,
    [key.studioId, key.clientId],
  );
  return opened(rows, 'answers');
}

interface StandingScreening extends NewestScreening {
  readonly clientId: string;
  readonly isNewest: boolean;
  readonly raised: readonly (Pick<RaisedFinding, 'id' | 'clearedScope'> & { readonly ruleId: string })[];
}

/** What decides on what a client may do. */
export interface Standing {
  readonly clientId: string;
  /** Every finding ever raised, newest first. */
  readonly raised: readonly RaisedFinding[];
  /**
   * The newest screening; after a merge the newest of each record, until the person is screened again: what one of them
   * left open is not taken as answered by the other. The newest of all comes first.
   */
  readonly newest: readonly NewestScreening[];
}

/** In the order of `clientIds`. */
export async function listStanding(
  sql: SqlRunner,
  { studioId, clientIds }: { studioId: string; clientIds: readonly string[] },
): Promise<Standing[]> {
  const rows = await sql.query<StandingScreening[]>(
    `WITH of_person AS (
       SELECT asked.id AS person, of_one.*
         FROM unnest($2::uuid[]) AS asked (id)
        CROSS JOIN LATERAL (
          SELECT s.id, coalesce(s.weighed, s.result) AS result, s.created_at, c.merged_at, ${raised} AS raised,
                 row_number() OVER (PARTITION BY s.client_id ORDER BY s.id DESC) = 1 AS is_last
            FROM app_same_client($1, asked.id) AS same (id)
            JOIN clients c ON c.studio_id = $1 AND c.id = same.id
            JOIN screenings s ON s.studio_id = $1 AND s.client_id = c.id) AS of_one),
     told AS (
       SELECT person, id, result, raised, is_last AND NOT EXISTS (
                SELECT FROM of_person later
                 WHERE later.person = one.person AND later.is_last AND later.id > one.id
                   AND later.created_at > greatest(one.merged_at, later.merged_at)) AS is_newest
         FROM of_person one)
     SELECT person AS "clientId", id, result, raised, is_newest AS "isNewest"
       FROM told WHERE is_newest OR raised <> '[]' ORDER BY id DESC`,
    [studioId, clientIds],
  );
  opened(rows, 'result');
  return clientIds.map((clientId) => {
    const screenings = rows.filter((row) => row.clientId === clientId);
    return {
      clientId,
      raised: screenings.flatMap(({ id: screeningId, result, raised: findings }) =>
        withFinding(findings.map((finding) => ({ ...finding, screeningId, result }))),
      ),
      newest: screenings.filter(({ isNewest }) => isNewest),
    };
  });
}

export async function insertClearance(
  tx: EntityManager,
  row: Pick<
    Clearance,
    | 'studioId'
    | 'clientId'
    | 'screeningId'
    | 'reason'
    | 'clearedByClinician'
    | 'registration'
    | 'scope'
    | 'validUntil'
    | 'recordedBy'
  >,
  findingIds: readonly string[],
): Promise<void> {
  const { studioId } = row;
  const { identifiers } = await tx.insert(Clearance, row);
  const clearanceId = (identifiers[0] as { id: string }).id;
  await tx.insert(
    ClearedFinding,
    findingIds.map((findingId) => ({ studioId, clearanceId, findingId })),
  );
}
