import { FitSession, type SqlRunner } from '@studio/database';
import { positionFields, type PositionFieldId } from '@studio/fit-math';
import type { EntityManager } from 'typeorm';
import type { SegmentsResponse } from './similar-positions.dto.js';

export function findSession(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<FitSession | null> {
  return tx.findOneBy(FitSession, key);
}

/** Mean of the sides, of each side the newest measurement that stands; null: not measured. */
const segmentsOf = (session: string): string => `
  SELECT avg(mean) FILTER (WHERE kind = 'thigh_length') AS thigh,
         avg(mean) FILTER (WHERE kind = 'shank_length') AS shank,
         avg(mean) FILTER (WHERE kind = 'foot_lever') AS foot
    FROM (SELECT DISTINCT ON (m.kind, m.side) m.kind, m.mean FROM measurements m
           WHERE m.studio_id = ${session}.studio_id AND m.fit_session_id = ${session}.id AND m.withdrawn_at IS NULL
             AND m.kind IN ('thigh_length', 'shank_length', 'foot_lever')
           ORDER BY m.kind, m.side, m.taken_at DESC, m.id DESC) standing`;

export async function findSegments(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<{ [Segment in keyof SegmentsResponse]: number | null }> {
  const [row] = await sql.query<
    [{ thighMm: number | null; shankMm: number | null; footLeverMm: number | null }]
  >(
    `SELECT of.thigh AS "thighMm", of.shank AS "shankMm", of.foot AS "footLeverMm"
       FROM fit_sessions s CROSS JOIN LATERAL (${segmentsOf('s')}) of
      WHERE s.studio_id = $1 AND s.id = $2`,
    [key.studioId, key.id],
  );
  return row;
}

/** Of every other person of the studio whose segments are near, the newest signed session in which they were measured. */
export async function findSimilarSessions(
  sql: SqlRunner,
  of: {
    studioId: string;
    clientId: string;
    segments: SegmentsResponse;
    scaleMm: SegmentsResponse;
    within: number;
    /** Only on bikes of this use; null: on any. */
    use: string | null;
  },
): Promise<string[]> {
  const { studioId, clientId, segments, scaleMm, within, use } = of;
  const rows = await sql.query<{ id: string }[]>(
    `WITH measured AS (
       SELECT DISTINCT ON (coalesce(c.merged_into, c.id)) s.id, leg.*
         FROM fit_sessions s
         JOIN clients c ON c.studio_id = s.studio_id AND c.id = s.client_id
         JOIN bikes b ON b.studio_id = s.studio_id AND b.id = s.bike_id
         CROSS JOIN LATERAL (${segmentsOf('s')}) leg
         WHERE s.studio_id = $1 AND s.signed_at IS NOT NULL AND c.restricted_at IS NULL
           AND ($10::text IS NULL OR $10 = ANY (b.uses))
          AND s.client_id NOT IN (SELECT * FROM app_same_client($1, $2))
          AND leg.thigh IS NOT NULL AND leg.shank IS NOT NULL AND leg.foot IS NOT NULL
        ORDER BY coalesce(c.merged_into, c.id), s.signed_at DESC)
     SELECT id FROM measured
      WHERE sqrt((((thigh - $3) / $6) ^ 2 + ((shank - $4) / $7) ^ 2 + ((foot - $5) / $8) ^ 2) / 3) <= $9`,
    [
      ...[studioId, clientId, segments.thighMm, segments.shankMm, segments.footLeverMm],
      ...[scaleMm.thighMm, scaleMm.shankMm, scaleMm.footLeverMm, within, use],
    ],
  );
  return rows.map(({ id }) => id);
}

const columnOf = (id: string): string => id.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

/** Each figure is of its own `riders`: those in whose position as left it was measured. */
export function spreadOfFigures(
  sql: SqlRunner,
  of: { studioId: string; fitSessionIds: readonly string[]; atLeast: number },
): Promise<{ field: PositionFieldId; riders: number; quartiles: [number, number, number] }[]> {
  return sql.query(
    `SELECT f.field, count(f.value)::int AS riders,
            percentile_cont(ARRAY[0.25, 0.5, 0.75]) WITHIN GROUP (ORDER BY f.value) AS quartiles
       FROM positions p
       CROSS JOIN LATERAL (VALUES ${positionFields
         .map(({ id }, place) => `(${place}, '${id}', p.${columnOf(id)})`)
         .join(', ')}) f (place, field, value)
      WHERE p.studio_id = $1 AND p.fit_session_id = ANY ($2) AND p.stage = 'left' AND p.superseded_at IS NULL
        AND f.value IS NOT NULL
      GROUP BY f.place, f.field HAVING count(f.value) >= $3 ORDER BY f.place`,
    [of.studioId, of.fitSessionIds, of.atLeast],
  );
}
