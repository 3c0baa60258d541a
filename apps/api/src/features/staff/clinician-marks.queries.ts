import { ClinicianMark, type SqlRunner } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { ClinicianMarkResponse } from './clinician-marks.dto.js';

interface Of {
  studioId: string;
  userId: string;
}

/** Newest first. */
export function listMarks(
  sql: SqlRunner,
  { studioId, userId, id = null }: Of & { id?: string | null },
): Promise<ClinicianMarkResponse[]> {
  return sql.query(
    `SELECT m.id, m.user_id AS "staffId", m.registration, m.checked_on::text AS "checkedOn", u.display_name AS "givenBy",
            m.created_at AS "givenAt", m.ended_at AS "endedAt"
       FROM clinician_marks m JOIN users u ON u.studio_id = m.studio_id AND u.id = m.given_by
      WHERE m.studio_id = $1 AND m.user_id = $2 AND ($3::uuid IS NULL OR m.id = $3)
      ORDER BY m.id DESC`,
    [studioId, userId, id],
  );
}

export async function insertMark(
  tx: EntityManager,
  row: Pick<ClinicianMark, 'studioId' | 'userId' | 'registration' | 'checkedOn' | 'givenBy'>,
): Promise<string> {
  const { identifiers } = await tx.insert(ClinicianMark, row);
  return (identifiers[0] as { id: string }).id;
}

/** Ends the mark that stands; tells whether one did. */
export async function endMark(
  tx: EntityManager,
  { studioId, userId, endedBy }: Of & { endedBy: string },
): Promise<boolean> {
  const { affected } = await tx.update(
    ClinicianMark,
    { studioId, userId, endedAt: IsNull() },
    { endedAt: () => 'app_now()', endedBy },
  );
  return affected === 1;
}
