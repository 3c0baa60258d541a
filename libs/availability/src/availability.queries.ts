import { takenWithin, type SqlRunner } from '@studio/database';

/** What a service asks for, as of now. */
export interface Offer {
  readonly id: string;
  readonly durationMinutes: number;
  readonly bufferBeforeMinutes: number;
  readonly bufferAfterMinutes: number;
  readonly curingMinutes: number;
  readonly requiredSkills: readonly string[];
  readonly requiredEquipment: readonly string[];
  readonly leadTimeMinutes: number;
  readonly horizonDays: number | null;
  readonly retired: boolean;
  readonly nowMs: number;
}

export interface Place {
  readonly id: string;
  readonly siteId: string | null;
  readonly timeZone: string;
}

const epochMs = (expression: string): string =>
  `(extract(epoch FROM ${expression}) * 1000)::double precision`;

export async function findOffer(
  sql: SqlRunner,
  key: { studioId: string; serviceId: string },
): Promise<Offer | null> {
  const rows = await sql.query<Offer[]>(
    `SELECT id, duration_minutes AS "durationMinutes", buffer_before_minutes AS "bufferBeforeMinutes",
            buffer_after_minutes AS "bufferAfterMinutes", curing_minutes AS "curingMinutes",
            required_skills AS "requiredSkills", required_equipment AS "requiredEquipment",
            lead_time_minutes AS "leadTimeMinutes", horizon_days AS "horizonDays",
            retired_at IS NOT NULL AS retired, ${epochMs('app_now()')} AS "nowMs"
       FROM services WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.serviceId],
  );
  return rows[0] ?? null;
}

/** Who fits bikes and has every skill. */
export async function suitableFitters(
  sql: SqlRunner,
  wish: { studioId: string; skills: readonly string[]; fitterId: string | null },
): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM users
      WHERE studio_id = $1 AND 'fitter' = ANY(roles) AND disabled_at IS NULL AND skills @> $2
        AND ($3::uuid IS NULL OR id = $3)
      ORDER BY id`,
    [wish.studioId, wish.skills, wish.fitterId],
  );
  return rows.map(({ id }) => id);
}

/** Rooms with all the equipment, each with its place. */
export function suitableRooms(
  sql: SqlRunner,
  wish: { studioId: string; equipment: readonly string[]; roomId: string | null; siteId: string | null },
): Promise<Place[]> {
  return sql.query<Place[]>(
    `SELECT rooms.id, rooms.site_id AS "siteId", coalesce(sites.time_zone, studios.time_zone) AS "timeZone"
       FROM rooms JOIN studios ON studios.id = rooms.studio_id
            LEFT JOIN sites ON sites.studio_id = rooms.studio_id AND sites.id = rooms.site_id
      WHERE rooms.studio_id = $1 AND rooms.equipment @> $2
        AND ($3::uuid IS NULL OR rooms.id = $3) AND ($4::uuid IS NULL OR rooms.site_id = $4)
      ORDER BY rooms.id`,
    [wish.studioId, wish.equipment, wish.roomId, wish.siteId],
  );
}

export function listBenches(
  sql: SqlRunner,
  studioId: string,
): Promise<{ id: string; siteId: string | null }[]> {
  return sql.query<{ id: string; siteId: string | null }[]>(
    `SELECT id, site_id AS "siteId" FROM benches WHERE studio_id = $1 ORDER BY id`,
    [studioId],
  );
}

/** What is taken of fitter and room, or of a bench: seconds since the epoch, each from and until. */
export interface TakenTime {
  readonly fitterId: string | null;
  readonly roomId: string | null;
  readonly benchId: string | null;
  readonly spans: readonly (readonly [number, number])[];
}

/**
 * What takes time of anybody or anything in the stretch; a hold that has run out takes none. Put together by whom it
 * takes: thousands of rows would cost more to read than all that is worked out from them.
 */
export function takenDuring(
  sql: SqlRunner,
  range: { studioId: string; from: string; to: string },
): Promise<TakenTime[]> {
  const spans = (span: string): string =>
    `json_agg(ARRAY[date_part('epoch', lower(${span})), date_part('epoch', upper(${span}))]) AS spans`;
  const within = `studio_id = $1 AND ${takenWithin('$2', '$3')}`;
  const taking = `${within} AND state IN ('held', 'booked', 'checked_in', 'completed', 'no_show')
    AND (state <> 'held' OR hold_expires_at > app_now())`;
  return sql.query<TakenTime[]>(
    `SELECT fitter_id AS "fitterId", room_id AS "roomId", NULL::uuid AS "benchId", ${spans('occupied')}
       FROM appointments WHERE ${taking} AND occupied && tstzrange($2, $3) GROUP BY fitter_id, room_id
      UNION ALL
     SELECT NULL, NULL, bench_id, ${spans('curing')}
       FROM appointments WHERE ${taking} AND curing && tstzrange($2, $3) GROUP BY bench_id
      UNION ALL
     SELECT NULL, NULL, bench_id, ${spans('curing')}
       FROM shoe_works
      WHERE ${within} AND bench_id IS NOT NULL AND state <> 'abandoned' AND curing && tstzrange($2, $3)
      GROUP BY bench_id`,
    [range.studioId, range.from, range.to],
  );
}
