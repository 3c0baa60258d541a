import { SaddleOffset, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { SaddleOffsetResponse } from './model-check.dto.js';

/** Computed by the formula, and left. */
export interface Prediction {
  predictedMm: number;
  leftMm: number;
  footPitchDeg: number;
}

export function listPredictions(sql: SqlRunner, studioId: string): Promise<Prediction[]> {
  return sql.query<Prediction[]>(
    `SELECT saddle_change_predicted_mm AS "predictedMm", saddle_change_left_mm AS "leftMm",
            foot_pitch_deg AS "footPitchDeg"
       FROM outcome_summaries o
      WHERE studio_id = $1 AND saddle_change_predicted_mm IS NOT NULL AND saddle_change_left_mm IS NOT NULL
        AND NOT EXISTS (SELECT FROM clients c
                         WHERE c.studio_id = o.studio_id AND c.id = o.client_id AND c.restricted_at IS NOT NULL)
      ORDER BY signed_at, id`,
    [studioId],
  );
}

const none: SaddleOffsetResponse = {
  version: 0,
  offsetMm: 0,
  because: null,
  appliedBy: null,
  appliedAt: null,
};

/** Newest first. */
export function listOffsets(
  sql: SqlRunner,
  page: { studioId: string; limit: number },
): Promise<SaddleOffsetResponse[]> {
  return sql.query<SaddleOffsetResponse[]>(
    `SELECT version, offset_mm AS "offsetMm", because, applied_by AS "appliedBy",
            to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "appliedAt"
       FROM saddle_offsets WHERE studio_id = $1 ORDER BY version DESC LIMIT $2`,
    [page.studioId, page.limit],
  );
}

export async function findOffsetInForce(sql: SqlRunner, studioId: string): Promise<SaddleOffsetResponse> {
  const [newest] = await listOffsets(sql, { studioId, limit: 1 });
  return newest ?? none;
}

export async function insertOffset(
  tx: EntityManager,
  row: Pick<SaddleOffset, 'studioId' | 'version' | 'offsetMm' | 'because' | 'appliedBy'>,
): Promise<string> {
  const { identifiers } = await tx.insert(SaddleOffset, row);
  return (identifiers[0] as { id: string }).id;
}
