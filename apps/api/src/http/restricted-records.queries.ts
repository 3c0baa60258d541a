import type { SqlRunner } from '@studio/database';

const ofRow = (table: string): string =>
  `SELECT t.client_id FROM ${table} t WHERE t.studio_id = $1 AND t.id = $2`;
const ofSession = (table: string): string =>
  `SELECT s.client_id FROM ${table} t JOIN fit_sessions s ON s.studio_id = t.studio_id AND s.id = t.fit_session_id
    WHERE t.studio_id = $1 AND t.id = $2`;

/** By the name of an id in an address, whose record it leads to; null where nothing is withheld. */
const clientBy = {
  clientId: 'SELECT $2::uuid',
  fitSessionId: ofRow('fit_sessions'),
  screeningId: ofRow('screenings'),
  referralId: ofRow('referrals'),
  pairedPositionId: ofRow('paired_positions'),
  shoeWorkId: ofRow('shoe_works'),
  followUpId: ofRow('follow_ups'),
  fileId: ofRow('files'),
  fitSheetId: ofSession('fit_sheets'),
  motionRecordingId: ofSession('motion_recordings'),
  planId: ofSession('plans'),
  // A copy of their own data is the person's right, restricted or not.
  rightsRequestId: null,
} as const;

/** An id that leads to a person's record. */
export type RecordIdName = keyof typeof clientBy;
export const recordIdNames = Object.keys(clientBy) as RecordIdName[];

/**
 * Of a record whose person had it restricted: whether the reader opened it with a reason. Null when it is not restricted,
 * or is not there.
 */
export async function findRestriction(
  sql: SqlRunner,
  of: { studioId: string; userId: string; idName: RecordIdName; id: string },
): Promise<{ opened: boolean } | null> {
  const client = clientBy[of.idName];
  if (client === null) return null;
  const rows = await sql.query<{ opened: boolean }[]>(
    `SELECT EXISTS (
              SELECT FROM record_openings o
               WHERE o.studio_id = $1 AND o.client_id IN (SELECT * FROM app_same_client($1, c.id))
                 AND o.opened_by = $3 AND o.expires_at > app_now()) AS opened
       FROM clients c
      WHERE c.studio_id = $1 AND c.restricted_at IS NOT NULL
        AND c.id IN (SELECT * FROM app_same_client($1, (${client})))`,
    [of.studioId, of.id, of.userId],
  );
  return rows[0] ?? null;
}
