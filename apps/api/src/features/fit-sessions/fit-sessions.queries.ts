import { Baseline, FitSession, opened, utcText as utc, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { changeColumns, complaintColumns, sealedFields } from './changes.queries.js';
import { toCleatPlan, type CleatPlanRecord } from './cleat-plan.dto.js';
import type { FitSessionLine, FitSessionResponse } from './fit-sessions.dto.js';
import { spanColumns } from './flow.queries.js';
import { measurementColumns } from './measurements.queries.js';
import { withWhatIsMissing, type PositionRow } from './positions.dto.js';
import { positionColumns } from './positions.queries.js';
import { adviceColumns } from './sign-off.queries.js';

interface Key {
  studioId: string;
  id: string;
}

/** Rows of a part as a JSON array; ids tell the order of writing unless a device made them. */
const partsOf = (
  table: string,
  fields: Readonly<Record<string, string>>,
  { only = 'true', order = 'p.id' } = {},
): string => `coalesce((
  SELECT json_agg(json_build_object(${Object.entries(fields)
    .map(([name, column]) => `'${name}', ${column}`)
    .join(', ')}) ORDER BY ${order})
    FROM ${table} p WHERE p.studio_id = s.studio_id AND p.fit_session_id = s.id AND ${only}), '[]')`;

/** A device that was without a connection sends late what it measured before. */
const byTime = 'p.taken_at, p.id';

const wholeSession = `SELECT s.id, s.client_id AS "clientId", s.bike_id AS "bikeId", s.shoe_id AS "shoeId",
    s.appointment_id AS "appointmentId", s.fitter_id AS "fitterId", s.screening_id AS "screeningId",
    ${utc('s.created_at')} AS "openedAt", ${utc('s.signed_at')} AS "signedAt", s.content_hash AS "contentHash",
    CASE WHEN s.place_stage IS NOT NULL THEN json_build_object(
      'stage', s.place_stage, 'note', s.place_note, 'version', s.place_version) END AS place,
    ${partsOf('stage_spans', spanColumns, { order: 'p.started_at, p.id' })} AS spans,
    ${partsOf('baselines', {
      pain: 'pain',
      comfort: 'comfort',
      numbness: 'numbness',
      power20MinW: 'power_20_min_w',
      version: 'version',
    })} -> 0 AS baseline,
    ${partsOf('measurements', measurementColumns, { only: 'p.withdrawn_at IS NULL', order: byTime })} AS measurements,
    ${partsOf('measurements', measurementColumns, { only: 'p.withdrawn_at IS NOT NULL', order: byTime })} AS "withdrawnMeasurements",
    ${partsOf('positions', positionColumns, { only: 'p.superseded_at IS NULL' })} AS positions,
    ${partsOf('fit_changes', changeColumns, { order: 'p.number' })} AS changes,
    ${partsOf('session_complaints', complaintColumns)} AS complaints,
    ${partsOf(
      'plans',
      {
        id: 'id',
        side: 'side',
        result: 'result',
        saddleOffsetMm: 'saddle_offset_mm',
        chosenWay: 'chosen_option',
        chosenBecause: 'chosen_because',
      },
      { only: `p.kind = 'cleat'` },
    )} AS "cleatPlans",
    ${partsOf('session_advice', adviceColumns)} -> 0 AS advice,
    ${partsOf('amendments', { id: 'id', text: 'text', writtenBy: 'written_by', createdAt: utc('p.created_at') })} AS amendments,
    ${partsOf('follow_ups', { id: 'id', week: 'week', dueAt: utc('p.due_at'), state: 'state' })} AS "followUps"
  FROM fit_sessions s WHERE s.studio_id = $1 AND s.id = $2`;

export async function findFitSession(sql: SqlRunner, key: Key): Promise<FitSessionResponse | null> {
  const rows = await sql.query<
    (Omit<FitSessionResponse, 'cleatPlans' | 'positions'> & {
      cleatPlans: CleatPlanRecord[];
      positions: PositionRow[];
    })[]
  >(wholeSession, [key.studioId, key.id]);
  // Of the place, amendments, withdrawn measurements, plans and advice; and of changes and complaints.
  const [row] = opened(rows, 'note', 'text', 'reason', 'chosenBecause', 'items', ...sealedFields);
  return row
    ? {
        ...row,
        positions: row.positions.map(withWhatIsMissing),
        cleatPlans: row.cleatPlans.map(toCleatPlan),
      }
    : null;
}

export function listFitSessions(
  sql: SqlRunner,
  page: { studioId: string; clientId: string; after: string | null; limit: number },
): Promise<FitSessionLine[]> {
  return sql.query<FitSessionLine[]>(
    `SELECT id, bike_id AS "bikeId", ${utc('created_at')} AS "openedAt", ${utc('signed_at')} AS "signedAt"
       FROM fit_sessions
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND ($3::uuid IS NULL OR id > $3)
      ORDER BY id LIMIT $4`,
    [page.studioId, page.clientId, page.after, page.limit],
  );
}

export async function insertFitSession(
  tx: EntityManager,
  row: Pick<
    FitSession,
    'studioId' | 'clientId' | 'bikeId' | 'shoeId' | 'appointmentId' | 'fitterId' | 'screeningId'
  > & { id?: string },
): Promise<string> {
  const { identifiers } = await tx.insert(FitSession, row);
  return (identifiers[0] as { id: string }).id;
}

/** Locked, so that a signature waits for what is being written and the other way round. */
export function findSessionForUpdate(tx: EntityManager, key: Key): Promise<FitSession | null> {
  return tx.findOne(FitSession, { where: key, lock: { mode: 'pessimistic_write' } });
}

type Part<T> = Omit<T, 'id' | 'createdAt'>;

export function findBaseline(
  tx: EntityManager,
  key: { studioId: string; fitSessionId: string },
): Promise<Baseline | null> {
  return tx.findOneBy(Baseline, key);
}

export async function putBaseline(tx: EntityManager, row: Part<Baseline>): Promise<void> {
  await tx.upsert(Baseline, row, ['studioId', 'fitSessionId']);
}
