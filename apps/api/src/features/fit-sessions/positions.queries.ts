import { Position, utcText, type SqlRunner } from '@studio/database';
import { positionFieldIds } from '@studio/fit-math';
import { IsNull, type EntityManager } from 'typeorm';
import type { PositionOfClientResponse, PositionRow, PositionStage } from './positions.dto.js';

/** Property of the answer to its column, of the table as `p`. */
export const positionColumns: Readonly<Record<keyof PositionRow, string>> = {
  id: 'p.id',
  stage: 'p.stage',
  version: 'p.version',
  takenBy: 'p.taken_by',
  takenAt: utcText('p.taken_at'),
  ...(Object.fromEntries(positionFieldIds.map((id) => [id, `p.${snake(id)}`])) as Record<
    (typeof positionFieldIds)[number],
    string
  >),
  hardwareLeft: 'p.hardware_left',
  hardwareRight: 'p.hardware_right',
  methods: 'p.methods',
};

function snake(id: string): string {
  return id.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

interface OfStage {
  studioId: string;
  fitSessionId: string;
  stage: PositionStage;
}

export function findStandingPosition(tx: EntityManager, of: OfStage): Promise<Position | null> {
  return tx.findOneBy(Position, { ...of, supersededAt: IsNull() });
}

/** The version that stood stays as it was, and stands no longer. */
export async function insertPosition(
  tx: EntityManager,
  row: OfStage & Partial<Position> & Pick<Position, 'version'>,
): Promise<void> {
  const { studioId, fitSessionId, stage } = row;
  await tx.query(
    `UPDATE positions SET superseded_at = app_now()
      WHERE studio_id = $1 AND fit_session_id = $2 AND stage = $3 AND superseded_at IS NULL`,
    [studioId, fitSessionId, stage],
  );
  await tx.insert(Position, row);
}

const ofClient = `SELECT ${Object.entries(positionColumns)
  .map(([property, column]) => `${column} AS "${property}"`)
  .join(', ')},
    p.fit_session_id AS "fitSessionId", s.bike_id AS "bikeId", p.superseded_at IS NULL AS stands
  FROM positions p
  JOIN fit_sessions s ON s.studio_id = p.studio_id AND s.id = p.fit_session_id
 WHERE p.studio_id = $1 AND s.client_id IN (SELECT * FROM app_same_client($1, $2))`;

export type PositionOfClientRow = Omit<PositionOfClientResponse, 'notMeasured'>;

/** Every version, oldest first. */
export function listPositions(
  sql: SqlRunner,
  page: {
    studioId: string;
    clientId: string;
    bikeId: string | null;
    stage: PositionStage | null;
    after: string | null;
    limit: number;
  },
): Promise<PositionOfClientRow[]> {
  return sql.query<PositionOfClientRow[]>(
    `${ofClient} AND ($3::uuid IS NULL OR s.bike_id = $3) AND ($4::text IS NULL OR p.stage = $4)
        AND ($5::uuid IS NULL OR p.id > $5)
      ORDER BY p.id LIMIT $6`,
    [page.studioId, page.clientId, page.bikeId, page.stage, page.after, page.limit],
  );
}

export async function findPositionOfClient(
  sql: SqlRunner,
  key: { studioId: string; clientId: string; id: string },
): Promise<PositionOfClientRow | null> {
  const rows = await sql.query<PositionOfClientRow[]>(`${ofClient} AND p.id = $3`, [
    key.studioId,
    key.clientId,
    key.id,
  ]);
  return rows[0] ?? null;
}
