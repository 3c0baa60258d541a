import type { AppointmentState, SqlRunner } from '@studio/database';

export interface Visit {
  readonly id: string;
  readonly state: AppointmentState;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly changedAt: Date;
  /** How often it was moved or cancelled. */
  readonly sequence: number;
  readonly service: string;
  readonly fitter: string;
  readonly room: string;
  readonly site: string | null;
  readonly timeZone: string;
  readonly givenName: string;
  readonly familyName: string;
  readonly email: string | null;
  readonly studioName: string;
  readonly attachInvitations: boolean;
  readonly now: Date;
}

export async function findVisit(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<Visit | null> {
  const rows = await sql.query<Visit[]>(
    `SELECT a.id, a.state, lower(a.during) AS "startsAt", upper(a.during) AS "endsAt",
            changes.sequence, coalesce(changes.changed_at, a.created_at) AS "changedAt",
            services.name AS service, users.display_name AS fitter, rooms.name AS room, sites.name AS site,
            coalesce(sites.time_zone, studios.time_zone) AS "timeZone",
            clients.given_name AS "givenName", clients.family_name AS "familyName", clients.email,
            coalesce(settings.sender_name, studios.name) AS "studioName",
            coalesce(settings.attach_invitations, true) AS "attachInvitations", app_now() AS now
       FROM appointments a
       JOIN studios ON studios.id = a.studio_id
       LEFT JOIN message_settings settings ON settings.studio_id = a.studio_id
       JOIN clients ON clients.studio_id = a.studio_id AND clients.id = a.client_id
       JOIN services ON services.studio_id = a.studio_id AND services.id = a.service_id
       JOIN users ON users.studio_id = a.studio_id AND users.id = a.fitter_id
       JOIN rooms ON rooms.studio_id = a.studio_id AND rooms.id = a.room_id
       LEFT JOIN sites ON sites.studio_id = a.studio_id AND sites.id = rooms.site_id
       CROSS JOIN LATERAL (
         SELECT count(*) FILTER (WHERE action IN ('move', 'cancel'))::integer AS sequence, max(created_at) AS changed_at
           FROM appointment_changes c WHERE c.studio_id = a.studio_id AND c.appointment_id = a.id) AS changes
      WHERE a.studio_id = $1 AND a.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}
