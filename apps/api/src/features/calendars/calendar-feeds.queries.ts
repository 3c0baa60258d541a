import { CalendarFeed, takenWithin, type SqlRunner } from '@studio/database';
import { IsNull, MoreThan, type EntityManager, type QueryDeepPartialEntity } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}
interface Of {
  readonly fitterId: string | null;
  readonly roomId: string | null;
}

export const now = (): string => 'app_now()';

export async function exists(sql: SqlRunner, studioId: string, { fitterId, roomId }: Of): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM users WHERE studio_id = $1 AND id = $2 AND 'fitter' = ANY(roles) AND disabled_at IS NULL
     UNION ALL SELECT 1 FROM rooms WHERE studio_id = $1 AND id = $3`,
    [studioId, fitterId, roomId],
  );
  return rows.length > 0;
}

export async function insertFeed(
  tx: EntityManager,
  row: Of & { studioId: string; secretHash: Buffer; createdBy: string },
): Promise<string> {
  const { identifiers } = await tx.insert(CalendarFeed, row);
  return (identifiers[0] as { id: string }).id;
}

export function findFeed(tx: EntityManager, key: Key): Promise<CalendarFeed | null> {
  return tx.findOneBy(CalendarFeed, key);
}

export function listFeeds(
  tx: EntityManager,
  { studioId, after, limit }: { studioId: string; after: string | null; limit: number },
): Promise<CalendarFeed[]> {
  return tx.find(CalendarFeed, {
    where: { studioId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}

export type FeedChange = QueryDeepPartialEntity<CalendarFeed>;

/** Changes a feed that was not revoked; tells whether it did. */
export async function updateStanding(tx: EntityManager, key: Key, change: FeedChange): Promise<boolean> {
  const { affected } = await tx.update(CalendarFeed, { ...key, revokedAt: IsNull() }, change);
  return affected === 1;
}

export interface FeedRecord extends Of {
  readonly secretHash: Buffer;
  readonly revoked: boolean;
  /** Of the fitter or the room. */
  readonly name: string;
}

export async function findFeedToRead(sql: SqlRunner, key: Key): Promise<FeedRecord | null> {
  const rows = await sql.query<FeedRecord[]>(
    `SELECT f.fitter_id AS "fitterId", f.room_id AS "roomId", f.secret_hash AS "secretHash",
            f.revoked_at IS NOT NULL OR users.disabled_at IS NOT NULL AS revoked,
            coalesce(users.display_name, rooms.name) AS name
       FROM calendar_feeds f
       LEFT JOIN users ON users.studio_id = f.studio_id AND users.id = f.fitter_id
       LEFT JOIN rooms ON rooms.studio_id = f.studio_id AND rooms.id = f.room_id
      WHERE f.studio_id = $1 AND f.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export interface FeedVisit {
  readonly id: string;
  readonly state: 'held' | 'booked' | 'checked_in' | 'completed' | 'no_show' | 'cancelled';
  readonly sequence: number;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly changedAt: Date;
  readonly timeZone: string;
  readonly service: string;
  readonly fitter: string;
  readonly room: string;
  readonly site: string | null;
  /** As the studio's setting has it. */
  readonly client: string | null;
}

/** From two months back on; without holds that ran out. */
export function listVisits(sql: SqlRunner, studioId: string, { fitterId, roomId }: Of): Promise<FeedVisit[]> {
  return sql.query<FeedVisit[]>(
    `SELECT a.id, a.state, lower(a.during) AS "startsAt", upper(a.during) AS "endsAt",
            coalesce(sites.time_zone, studios.time_zone) AS "timeZone",
            services.name AS service, users.display_name AS fitter, rooms.name AS room, sites.name AS site,
            changes.sequence, coalesce(changes.changed_at, a.created_at) AS "changedAt",
            CASE coalesce(settings.calendar_names, 'initials')
              WHEN 'full' THEN clients.given_name || ' ' || clients.family_name
              WHEN 'initials' THEN left(clients.given_name, 1) || '. ' || left(clients.family_name, 1) || '.' END AS client
       FROM appointments a
       JOIN studios ON studios.id = a.studio_id
       JOIN clients ON clients.studio_id = a.studio_id AND clients.id = a.client_id
       JOIN services ON services.studio_id = a.studio_id AND services.id = a.service_id
       JOIN users ON users.studio_id = a.studio_id AND users.id = a.fitter_id
       JOIN rooms ON rooms.studio_id = a.studio_id AND rooms.id = a.room_id
       LEFT JOIN sites ON sites.studio_id = a.studio_id AND sites.id = rooms.site_id
       LEFT JOIN message_settings settings ON settings.studio_id = a.studio_id
       CROSS JOIN LATERAL (
         SELECT count(*) FILTER (WHERE action IN ('move', 'cancel'))::integer AS sequence, max(created_at) AS changed_at
           FROM appointment_changes c WHERE c.studio_id = a.studio_id AND c.appointment_id = a.id) AS changes
      WHERE a.studio_id = $1 AND (a.fitter_id = $2 OR a.room_id = $3)
        AND ${takenWithin(`(app_now() - interval '2 months')`, null, 'a.')} AND a.state <> 'lapsed'
        AND NOT (a.state = 'held' AND a.hold_expires_at <= app_now())
      ORDER BY lower(a.during), a.id`,
    [studioId, fitterId, roomId],
  );
}
