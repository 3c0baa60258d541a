import type { AppointmentState, SqlRunner } from '@studio/database';

export interface Visit {
  readonly state: AppointmentState;
  readonly startsAt: string;
  readonly service: string;
  readonly fitter: string;
  readonly room: string;
  readonly site: string | null;
  readonly timeZone: string;
}

export async function findVisit(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<Visit | null> {
  const rows = await sql.query<Visit[]>(
    `SELECT a.state, to_char(lower(a.during) AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
            services.name AS service, users.display_name AS fitter, rooms.name AS room, sites.name AS site,
            coalesce(sites.time_zone, studios.time_zone) AS "timeZone"
       FROM appointments a
       JOIN studios ON studios.id = a.studio_id
       JOIN services ON services.studio_id = a.studio_id AND services.id = a.service_id
       JOIN users ON users.studio_id = a.studio_id AND users.id = a.fitter_id
       JOIN rooms ON rooms.studio_id = a.studio_id AND rooms.id = a.room_id
       LEFT JOIN sites ON sites.studio_id = a.studio_id AND sites.id = rooms.site_id
      WHERE a.studio_id = $1 AND a.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}
