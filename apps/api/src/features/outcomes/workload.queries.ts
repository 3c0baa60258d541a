import { takenWithin, type SqlRunner } from '@studio/database';

export interface Workplace {
  readonly studioId: string;
  /** Half-open, UTC. */
  readonly from: string;
  readonly to: string;
  readonly timeZone: string;
  readonly fitterId: string | null;
  readonly siteId: string | null;
}

export interface VisitGroup {
  readonly fitterId: string;
  readonly roomId: string;
  readonly planned: number;
  readonly attended: number;
  readonly noShows: number;
  readonly cancelled: number;
  readonly cancelledLate: number;
  readonly booked: number;
  readonly bookedMinutes: number;
}

/** Visits that begin in the period, by fitter and room. Holds are no visits. */
export function visitGroups(sql: SqlRunner, of: Workplace): Promise<VisitGroup[]> {
  const late = `a.cancelled_late AND a.cancelled_by = 'client'`;
  const count = (condition: string): string => `(count(*) FILTER (WHERE ${condition}))::integer`;
  return sql.query<VisitGroup[]>(
    `SELECT a.fitter_id AS "fitterId", a.room_id AS "roomId", count(*)::integer AS planned,
            ${count(`a.state IN ('checked_in', 'completed')`)} AS attended,
            ${count(`a.state = 'no_show'`)} AS "noShows",
            ${count(`a.state = 'cancelled' AND NOT coalesce(${late}, false)`)} AS cancelled,
            ${count(`a.state = 'cancelled' AND ${late}`)} AS "cancelledLate",
            ${count(`a.state = 'booked'`)} AS booked,
            coalesce(sum(extract(epoch FROM upper(a.occupied) - lower(a.occupied)) / 60)
              FILTER (WHERE a.state <> 'cancelled'), 0)::float8 AS "bookedMinutes"
       FROM appointments a JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
      WHERE a.studio_id = $1 AND ${takenWithin('$2', '$3', 'a.')} AND lower(a.during) >= $2 AND lower(a.during) < $3
        AND a.state NOT IN ('held', 'lapsed')
        AND ($4::uuid IS NULL OR a.fitter_id = $4) AND ($5::uuid IS NULL OR r.site_id = $5)
      GROUP BY a.fitter_id, a.room_id`,
    [of.studioId, of.from, of.to, of.fitterId, of.siteId],
  );
}

export interface Fitter {
  readonly id: string;
  readonly name: string;
  /** Works here still. */
  readonly active: boolean;
}

export function listFitters(sql: SqlRunner, of: Pick<Workplace, 'studioId' | 'fitterId'>): Promise<Fitter[]> {
  return sql.query<Fitter[]>(
    `SELECT id, display_name AS name, disabled_at IS NULL AND 'fitter' = ANY (roles) AS active
       FROM users WHERE studio_id = $1 AND ($2::uuid IS NULL OR id = $2) ORDER BY display_name, id`,
    [of.studioId, of.fitterId],
  );
}

export interface RoomPlace {
  readonly id: string;
  readonly name: string;
  readonly siteId: string | null;
  readonly timeZone: string;
}

export function listRooms(sql: SqlRunner, of: Pick<Workplace, 'studioId' | 'siteId'>): Promise<RoomPlace[]> {
  return sql.query<RoomPlace[]>(
    `SELECT r.id, r.name, r.site_id AS "siteId", coalesce(s.time_zone, t.time_zone) AS "timeZone"
       FROM rooms r JOIN studios t ON t.id = r.studio_id
       LEFT JOIN sites s ON s.studio_id = r.studio_id AND s.id = r.site_id
      WHERE r.studio_id = $1 AND ($2::uuid IS NULL OR r.site_id = $2) ORDER BY r.name, r.id`,
    [of.studioId, of.siteId],
  );
}

export interface RevenueLine {
  readonly month: string;
  readonly currency: string;
  readonly fitterId: string | null;
  readonly siteId: string | null;
  readonly receipts: number;
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

/** A line of a credit note counts against the fitter and site of the line it corrects. */
export function revenueLines(sql: SqlRunner, of: Workplace): Promise<RevenueLine[]> {
  const sum = (column: string): string =>
    `sum(CASE d.kind WHEN 'credit_note' THEN -l.${column} ELSE l.${column} END)::float8`;
  return sql.query<RevenueLine[]>(
    `SELECT to_char(d.issued_at AT TIME ZONE $4, 'YYYY-MM') AS month, d.currency, a.fitter_id AS "fitterId",
            r.site_id AS "siteId", count(DISTINCT coalesce(d.receipt_id, d.id))::integer AS receipts,
            ${sum('net_minor')} AS "netMinor", ${sum('tax_minor')} AS "taxMinor", ${sum('gross_minor')} AS "grossMinor"
       FROM account_documents d
       JOIN account_lines l ON l.studio_id = d.studio_id AND l.document_id = d.id
       LEFT JOIN appointments a ON a.studio_id = l.studio_id AND a.id = l.appointment_id
       LEFT JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
      WHERE d.studio_id = $1 AND d.state = 'issued' AND d.kind <> 'quote' AND d.issued_at >= $2 AND d.issued_at < $3
        AND ($5::uuid IS NULL OR a.fitter_id = $5) AND ($6::uuid IS NULL OR r.site_id = $6)
      GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4`,
    [of.studioId, of.from, of.to, of.timeZone, of.fitterId, of.siteId],
  );
}

/** Cases in which a sole was first changed for good in the period; of a site when they cured or were booked there. */
export async function countShoeWork(sql: SqlRunner, of: Workplace): Promise<number> {
  const [row] = await sql.query<[{ n: number }]>(
    `SELECT count(*)::integer AS n
       FROM shoe_works w
       LEFT JOIN benches b ON b.studio_id = w.studio_id AND b.id = w.bench_id
       LEFT JOIN appointments a ON a.studio_id = w.studio_id AND a.id = w.appointment_id
       LEFT JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
      WHERE w.studio_id = $1 AND w.begun_at >= $2 AND w.begun_at < $3
        AND ($4::uuid IS NULL OR w.begun_by = $4) AND ($5::uuid IS NULL OR coalesce(r.site_id, b.site_id) = $5)`,
    [of.studioId, of.from, of.to, of.fitterId, of.siteId],
  );
  return row.n;
}

export async function countReferrals(
  sql: SqlRunner,
  of: Pick<Workplace, 'studioId' | 'from' | 'to'>,
): Promise<number> {
  const [row] = await sql.query<[{ n: number }]>(
    'SELECT count(*)::integer AS n FROM referrals WHERE studio_id = $1 AND created_at >= $2 AND created_at < $3',
    [of.studioId, of.from, of.to],
  );
  return row.n;
}
