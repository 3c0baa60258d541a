import { Clearance, Screening, type ScreeningOccasion, type SqlRunner } from '@studio/database';
import type { Evaluation } from '@studio/clinical-flags';
import type { EntityManager } from 'typeorm';
import type { ScreeningRecord } from './screenings.dto.js';

const columns = `s.id, s.client_id AS "clientId", s.occasion, s.result, s.created_at AS "createdAt",
  EXISTS (SELECT 1 FROM clearances c WHERE c.studio_id = s.studio_id AND c.screening_id = s.id) AS cleared`;

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
    permissionLevel: evaluation.permission.level,
  });
  return (identifiers[0] as { id: string }).id;
}

export async function findScreening(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<ScreeningRecord | null> {
  const rows = await sql.query<ScreeningRecord[]>(
    `SELECT ${columns} FROM screenings s WHERE s.studio_id = $1 AND s.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** Newest first. */
export function listScreenings(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
): Promise<ScreeningRecord[]> {
  return sql.query<ScreeningRecord[]>(
    `SELECT ${columns} FROM screenings s WHERE s.studio_id = $1 AND s.client_id = $2 ORDER BY s.id DESC`,
    [key.studioId, key.clientId],
  );
}

export async function insertClearance(
  tx: EntityManager,
  row: Pick<
    Clearance,
    'studioId' | 'clientId' | 'screeningId' | 'reason' | 'clearedByClinician' | 'recordedBy'
  >,
): Promise<void> {
  await tx.insert(Clearance, row);
}
