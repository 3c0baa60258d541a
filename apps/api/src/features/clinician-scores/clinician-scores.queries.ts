import { ClinicianScoreRow, opened, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { ClinicianScoreResponse } from './clinician-scores.dto.js';

export async function insertScore(
  tx: EntityManager,
  row: Omit<ClinicianScoreRow, 'id' | 'createdAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(ClinicianScoreRow, row);
  return (identifiers[0] as { id: string }).id;
}

/** Newest first. */
export async function listScores(
  sql: SqlRunner,
  { studioId, clientId, id = null }: { studioId: string; clientId: string; id?: string | null },
): Promise<ClinicianScoreResponse[]> {
  const rows = await sql.query<ClinicianScoreResponse[]>(
    `SELECT s.id, s.client_id AS "clientId", s.screening_id AS "screeningId", s.kind, u.display_name AS "clinicianName",
            m.registration, s.found, s.result, s.created_at AS "createdAt"
       FROM clinician_scores s
       JOIN clinician_marks m ON m.studio_id = s.studio_id AND m.id = s.clinician_mark_id
       JOIN users u ON u.studio_id = m.studio_id AND u.id = m.user_id
      WHERE s.studio_id = $1 AND s.client_id IN (SELECT * FROM app_same_client($1, $2))
        AND ($3::uuid IS NULL OR s.id = $3)
      ORDER BY s.id DESC`,
    [studioId, clientId, id],
  );
  return opened(rows, 'found', 'result');
}
