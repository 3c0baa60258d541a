import { FitChange, opened, SessionComplaint, utcText, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { ChangeResponse, ComplaintLine, RiderResponse } from './changes.dto.js';

/** Property of the answer to its column, of the table as `p`. */
export const changeColumns: Readonly<Record<keyof ChangeResponse, string>> = {
  id: 'p.id',
  number: 'p.number',
  items: 'p.items',
  severalAtOnce: 'p.several_at_once',
  why: 'p.why',
  madeBy: 'p.made_by',
  madeAt: utcText('p.made_at'),
  response: `CASE WHEN p.response_version > 0 THEN json_build_object(
    'version', p.response_version, 'at', ${utcText('p.responded_at')}, 'comfort', p.comfort, 'pains', p.pains,
    'remarks', p.remarks, 'powerW', p.power_w, 'heartRateBpm', p.heart_rate_bpm) END`,
};

/** Of changes and complaints, what the rider or the fitter said. */
export const sealedFields = ['why', 'pains', 'remarks'];

export const complaintColumns: Readonly<Record<keyof ComplaintLine, string>> = {
  id: 'p.id',
  screeningId: 'p.screening_id',
  changeId: 'p.change_id',
  sites: 'p.sites',
  remarks: 'p.remarks',
  toldBy: 'p.told_by',
  toldAt: utcText('p.told_at'),
};

interface OfSession {
  studioId: string;
  fitSessionId: string;
}

export async function findChange(
  sql: SqlRunner,
  key: OfSession & { id: string },
): Promise<(ChangeResponse & { responseDeviceId: string | null }) | null> {
  const rows = await sql.query<(ChangeResponse & { responseDeviceId: string | null })[]>(
    `SELECT ${Object.entries(changeColumns)
      .map(([property, column]) => `${column} AS "${property}"`)
      .join(', ')}, p.response_device_id AS "responseDeviceId"
       FROM fit_changes p WHERE p.studio_id = $1 AND p.fit_session_id = $2 AND p.id = $3`,
    [key.studioId, key.fitSessionId, key.id],
  );
  return opened(rows, ...sealedFields)[0] ?? null;
}

/** The session is locked, so numbers are given one after the other. */
export async function insertChange(
  tx: EntityManager,
  row: OfSession & Pick<FitChange, 'id' | 'items' | 'severalAtOnce' | 'why' | 'madeBy' | 'madeAt'>,
): Promise<void> {
  const { studioId, fitSessionId } = row;
  const number = ((await tx.maximum(FitChange, 'number', { studioId, fitSessionId })) ?? 0) + 1;
  await tx.insert(FitChange, { ...row, number });
}

export async function putResponse(
  tx: EntityManager,
  key: { studioId: string; id: string },
  { version, at, ...response }: RiderResponse & { responseDeviceId: string | null },
): Promise<void> {
  await tx.update(FitChange, key, { ...response, responseVersion: version, respondedAt: new Date(at) });
}

export async function insertComplaint(
  tx: EntityManager,
  row: Omit<SessionComplaint, 'createdAt'>,
): Promise<void> {
  await tx.insert(SessionComplaint, row);
}

/** The cases that a screening's findings belong to. */
export async function listReferralsOf(
  sql: SqlRunner,
  key: { studioId: string; screeningId: string },
): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT DISTINCT r.referral_id AS id
       FROM findings f
       JOIN referral_findings r ON r.studio_id = f.studio_id AND r.finding_id = f.id
      WHERE f.studio_id = $1 AND f.screening_id = $2 ORDER BY 1`,
    [key.studioId, key.screeningId],
  );
  return rows.map(({ id }) => id);
}

/** Body sites that any of the client's screenings was told of. */
export async function listScreenedSites(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
): Promise<string[]> {
  const rows = await sql.query<{ answers: { complaint_sites?: unknown } }[]>(
    `SELECT answers FROM screenings
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2))`,
    [key.studioId, key.clientId],
  );
  const sites = opened(rows, 'answers').flatMap(({ answers: { complaint_sites: told } }) =>
    Array.isArray(told) ? told.map(String) : [],
  );
  return [...new Set(sites)].sort();
}
