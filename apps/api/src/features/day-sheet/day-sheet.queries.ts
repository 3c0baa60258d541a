import { type AppointmentState, type SqlRunner, survivorOf, takenWithin } from '@studio/database';

export interface SheetVisit {
  readonly appointmentId: string;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly state: AppointmentState;
  readonly clientId: string;
  readonly clientName: string;
  readonly phone: string | null;
  readonly consented: boolean;
  /** A clinician was to have seen the client by now, as far as the studio knows. */
  readonly referralOverdue: boolean;
  readonly serviceId: string;
  readonly serviceName: string;
  readonly fitterId: string;
  readonly fitterName: string;
  readonly roomId: string;
  readonly roomName: string;
}

interface Range {
  readonly studioId: string;
  readonly siteId: string | null;
  readonly from: string;
  readonly to: string;
}

export function listVisits(sql: SqlRunner, range: Range): Promise<SheetVisit[]> {
  return sql.query<SheetVisit[]>(
    `SELECT a.id AS "appointmentId", lower(a.during) AS "startsAt", upper(a.during) AS "endsAt", a.state,
            c.id AS "clientId", c.given_name || ' ' || c.family_name AS "clientName", c.phone,
            app_consented(c.studio_id, c.id, 'health_data') AS consented,
            EXISTS (SELECT FROM referrals f WHERE f.studio_id = c.studio_id
                       AND f.client_id IN (SELECT * FROM app_same_client(c.studio_id, c.id))
                       AND f.state IN ('opened', 'handed_over', 'acknowledged') AND f.due_at <= app_now()) AS "referralOverdue",
            s.id AS "serviceId", s.name AS "serviceName",
            u.id AS "fitterId", u.display_name AS "fitterName", r.id AS "roomId", r.name AS "roomName"
       FROM appointments a
       JOIN clients of ON of.studio_id = a.studio_id AND of.id = a.client_id
       JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}
       JOIN services s ON s.studio_id = a.studio_id AND s.id = a.service_id
       JOIN users u ON u.studio_id = a.studio_id AND u.id = a.fitter_id
       JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
      WHERE a.studio_id = $1 AND ${takenWithin('$2', '$3', 'a.')} AND a.during && tstzrange($2, $3)
        AND a.state NOT IN ('cancelled', 'lapsed') AND (a.state <> 'held' OR a.hold_expires_at > app_now())
        AND ($4::uuid IS NULL OR r.site_id = $4)
      ORDER BY lower(a.during), r.name, a.id`,
    [range.studioId, range.from, range.to, range.siteId],
  );
}

export interface SheetCuring {
  /** The visit, or the case of shoe work, that it belongs to; of a visit's case only the case is told. */
  readonly appointmentId: string | null;
  readonly shoeWorkId: string | null;
  readonly clientName: string;
  readonly benchId: string;
  readonly benchName: string;
  readonly readyAt: Date;
}

export function listCuring(sql: SqlRunner, range: Range): Promise<SheetCuring[]> {
  return sql.query<SheetCuring[]>(
    `SELECT lying.appointment_id AS "appointmentId", lying.shoe_work_id AS "shoeWorkId",
            c.given_name || ' ' || c.family_name AS "clientName",
            b.id AS "benchId", b.name AS "benchName", upper(lying.curing) AS "readyAt"
       FROM (
         SELECT id AS appointment_id, NULL::uuid AS shoe_work_id, client_id, bench_id, curing FROM appointments a
          WHERE studio_id = $1 AND ${takenWithin('$2', '$3')} AND curing && tstzrange($2, $3) AND state IN ('booked', 'checked_in', 'completed')
            AND NOT EXISTS (SELECT FROM shoe_works w WHERE w.studio_id = a.studio_id AND w.appointment_id = a.id
                               AND w.curing IS NOT NULL AND w.state <> 'abandoned')
          UNION ALL
         SELECT appointment_id, id, client_id, bench_id, curing FROM shoe_works
          WHERE studio_id = $1 AND ${takenWithin('$2', '$3')} AND curing && tstzrange($2, $3) AND state <> 'abandoned') AS lying
       JOIN clients of ON of.studio_id = $1 AND of.id = lying.client_id
       JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}
       JOIN benches b ON b.studio_id = $1 AND b.id = lying.bench_id
      WHERE $4::uuid IS NULL OR b.site_id = $4
      ORDER BY upper(lying.curing), b.name, coalesce(lying.shoe_work_id, lying.appointment_id)`,
    [range.studioId, range.from, range.to, range.siteId],
  );
}

export function listRooms(
  sql: SqlRunner,
  key: { studioId: string; siteId: string | null },
): Promise<{ id: string; name: string }[]> {
  return sql.query(
    `SELECT id, name FROM rooms WHERE studio_id = $1 AND ($2::uuid IS NULL OR site_id = $2) ORDER BY name`,
    [key.studioId, key.siteId],
  );
}

export function listFitters(sql: SqlRunner, studioId: string): Promise<{ id: string; name: string }[]> {
  return sql.query(
    `SELECT id, display_name AS name FROM users
      WHERE studio_id = $1 AND 'fitter' = ANY(roles) AND disabled_at IS NULL ORDER BY display_name, id`,
    [studioId],
  );
}

/** The studio's name and the clock of the place; null for a site it does not have. */
export async function findPlace(
  sql: SqlRunner,
  key: { studioId: string; siteId: string | null },
): Promise<{ studio: string; timeZone: string } | null> {
  const rows = await sql.query<{ studio: string; timeZone: string }[]>(
    `SELECT studios.name AS studio, coalesce(sites.time_zone, studios.time_zone) AS "timeZone"
       FROM studios LEFT JOIN sites ON sites.studio_id = studios.id AND sites.id = $2
      WHERE studios.id = $1 AND ($2::uuid IS NULL OR sites.id IS NOT NULL)`,
    [key.studioId, key.siteId],
  );
  return rows[0] ?? null;
}
