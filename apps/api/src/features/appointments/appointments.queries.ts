import {
  Appointment,
  type AppointmentState,
  type Canceller,
  type Prerequisite,
  type SqlRunner,
  takenWithin,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { AppointmentChangeResponse } from './appointments.dto.js';
import type { Clash } from './appointments.errors.js';

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** What takes time; the exclusion constraints say the same. */
const takesTime = `state IN ('held', 'booked', 'checked_in', 'completed', 'no_show')`;
const holdRanOut = `state = 'held' AND hold_expires_at <= app_now()`;

const columns = `a.id, a.client_id AS "clientId", a.service_id AS "serviceId", a.fitter_id AS "fitterId",
  a.room_id AS "roomId", rooms.site_id AS "siteId", a.bench_id AS "benchId",
  ${utc('lower(a.during)')} AS "startsAt", ${utc('upper(a.during)')} AS "endsAt", ${utc('upper(a.curing)')} AS "curedAt",
  CASE WHEN ${holdRanOut} THEN 'lapsed' ELSE a.state END AS state,
  CASE WHEN a.state = 'held' THEN ${utc('a.hold_expires_at')} END AS "heldUntil",
  a.cancel_reason AS "cancelReason", a.cancelled_by AS "cancelledBy", a.cancelled_late AS "cancelledLate",
  a.series_id AS "seriesId", a.series_position AS "seriesPosition", a.version,
  coalesce(sites.time_zone, studios.time_zone) AS "timeZone"`;
const tables = `appointments a
  JOIN studios ON studios.id = a.studio_id
  JOIN rooms ON rooms.studio_id = a.studio_id AND rooms.id = a.room_id
  LEFT JOIN sites ON sites.studio_id = a.studio_id AND sites.id = rooms.site_id`;

export interface AppointmentRecord {
  readonly id: string;
  readonly clientId: string;
  readonly serviceId: string;
  readonly fitterId: string;
  readonly roomId: string;
  readonly siteId: string | null;
  readonly benchId: string | null;
  readonly startsAt: string;
  readonly endsAt: string;
  readonly curedAt: string | null;
  readonly state: AppointmentState;
  readonly heldUntil: string | null;
  readonly cancelReason: string | null;
  readonly cancelledBy: Canceller | null;
  readonly cancelledLate: boolean | null;
  readonly seriesId: string | null;
  readonly seriesPosition: number | null;
  readonly version: number;
  readonly timeZone: string;
}
interface Key {
  readonly studioId: string;
  readonly id: string;
}

export async function findAppointment(sql: SqlRunner, key: Key): Promise<AppointmentRecord | null> {
  const rows = await sql.query<AppointmentRecord[]>(
    `SELECT ${columns} FROM ${tables} WHERE a.studio_id = $1 AND a.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listAppointments(
  sql: SqlRunner,
  page: {
    studioId: string;
    from: string;
    to: string;
    fitterId: string | null;
    roomId: string | null;
    clientId: string | null;
    after: string | null;
    limit: number;
  },
): Promise<AppointmentRecord[]> {
  return sql.query<AppointmentRecord[]>(
    `SELECT ${columns} FROM ${tables}
      WHERE a.studio_id = $1 AND ${takenWithin('$2', '$3', 'a.')} AND a.during && tstzrange($2, $3)
        AND ($4::uuid IS NULL OR a.fitter_id = $4) AND ($5::uuid IS NULL OR a.room_id = $5)
        AND ($6::uuid IS NULL OR a.client_id IN (SELECT * FROM app_same_client($1, $6)))
        AND ($7::uuid IS NULL OR a.id > $7)
      ORDER BY a.id LIMIT $8`,
    [page.studioId, page.from, page.to, page.fitterId, page.roomId, page.clientId, page.after, page.limit],
  );
}

export function listSeries(
  sql: SqlRunner,
  key: { studioId: string; seriesId: string },
): Promise<AppointmentRecord[]> {
  return sql.query<AppointmentRecord[]>(
    `SELECT ${columns} FROM ${tables}
      WHERE a.studio_id = $1 AND a.series_id = $2 ORDER BY a.series_position`,
    [key.studioId, key.seriesId],
  );
}

/** What a visit takes, and of whom. Instants in milliseconds since the epoch. */
export interface Slot {
  readonly studioId: string;
  readonly fitterId: string;
  readonly roomId: string;
  readonly benchId: string | null;
  readonly during: Span;
  readonly occupied: Span;
  readonly curing: Span | null;
}
interface Span {
  readonly start: number;
  readonly end: number;
}

/** A slot, or a bench alone that something else than a visit takes. */
export type Wanted = Pick<Slot, 'studioId' | 'benchId' | 'occupied' | 'curing'> & {
  readonly fitterId: string | null;
  readonly roomId: string | null;
};

/** Half-open, so that one visit may begin when another ends. */
const range = ({ start, end }: Span): string =>
  `[${new Date(start).toISOString()},${new Date(end).toISOString()})`;

const columnsOf = (slot: Slot) => ({
  fitterId: slot.fitterId,
  roomId: slot.roomId,
  benchId: slot.benchId,
  during: range(slot.during),
  occupied: range(slot.occupied),
  curing: slot.curing && range(slot.curing),
});

/** What could stand in the way of a slot's visit ($5) or of what cures after it ($6). */
const withinSlot = takenWithin(
  'lower($5::tstzrange)',
  'greatest(upper($5::tstzrange), upper($6::tstzrange))',
);

/**
 * Whoever books the same fitter, room or bench waits here for the one before. The constraints would keep the rows
 * right without it, but two inserts that wait for each other end in a deadlock, and that takes a second to be seen.
 */
export async function takeTurn(tx: EntityManager, slots: readonly Wanted[]): Promise<void> {
  const ids = new Set(slots.flatMap(({ fitterId, roomId, benchId }) => [fitterId, roomId, benchId]));
  await tx.query(
    `SELECT pg_advisory_xact_lock(key)
       FROM (SELECT hashtextextended(id, 0) AS key FROM unnest($1::text[]) id ORDER BY key) AS turns`,
    [[...ids].filter((id) => id !== null)],
  );
}

/** Write down as lapsed the holds that ran out and would stand in the slot's way; tells which. */
export async function lapseHolds(tx: EntityManager, slot: Wanted): Promise<string[]> {
  const [rows] = await tx.query<[{ id: string }[], number]>(
    `WITH ran_out AS (
       SELECT id FROM appointments
        WHERE studio_id = $1 AND ${holdRanOut} AND ${withinSlot}
          AND ((fitter_id = $2 OR room_id = $3) AND occupied && $5::tstzrange
               OR bench_id = $4::uuid AND curing && $6::tstzrange)
        ORDER BY id FOR UPDATE)
     UPDATE appointments SET state = 'lapsed', version = version + 1
       FROM ran_out WHERE appointments.studio_id = $1 AND appointments.id = ran_out.id
     RETURNING appointments.id`,
    [
      slot.studioId,
      slot.fitterId,
      slot.roomId,
      slot.benchId,
      range(slot.occupied),
      slot.curing && range(slot.curing),
    ],
  );
  return rows.map(({ id }) => id);
}

export async function insertAppointment(
  tx: EntityManager,
  slot: Slot,
  row: { clientId: string; serviceId: string; seriesId?: string; seriesPosition?: number },
  holdMinutes: number | undefined,
): Promise<string> {
  const { identifiers } = await tx.insert(Appointment, {
    studioId: slot.studioId,
    ...columnsOf(slot),
    ...row,
    ...(holdMinutes !== undefined && {
      state: 'held',
      holdExpiresAt: () => `app_now() + interval '${holdMinutes} minutes'`,
    }),
  });
  return (identifiers[0] as { id: string }).id;
}

/** A visit that stands in the way of the slot, other than `exceptId` itself. */
export async function findClash(sql: SqlRunner, slot: Slot, exceptId: string | null): Promise<Clash | null> {
  const rows = await sql.query<Clash[]>(
    `SELECT CASE WHEN occupied && $5::tstzrange AND fitter_id = $2 THEN 'fitter'
                 WHEN occupied && $5::tstzrange AND room_id = $3 THEN 'room' ELSE 'bench' END AS resource,
            ${utc('lower(occupied)')} AS "startsAt", ${utc('upper(occupied)')} AS "endsAt"
       FROM appointments
      WHERE studio_id = $1 AND ${withinSlot} AND ${takesTime} AND NOT (${holdRanOut}) AND ($7::uuid IS NULL OR id <> $7)
        AND ((fitter_id = $2 OR room_id = $3) AND occupied && $5::tstzrange
             OR bench_id = $4::uuid AND curing && $6::tstzrange)
      UNION ALL
     SELECT 'bench', ${utc('lower(curing)')}, ${utc('upper(curing)')}
       FROM shoe_works
      WHERE studio_id = $1 AND ${withinSlot} AND state <> 'abandoned' AND bench_id = $4::uuid AND curing && $6::tstzrange
        AND ($7::uuid IS NULL OR appointment_id IS DISTINCT FROM $7)
      ORDER BY "startsAt" LIMIT 1`,
    [
      slot.studioId,
      slot.fitterId,
      slot.roomId,
      slot.benchId,
      range(slot.occupied),
      slot.curing && range(slot.curing),
      exceptId,
    ],
  );
  return rows[0] ?? null;
}

const curingWithin = takenWithin('lower($3::tstzrange)', 'upper($3::tstzrange)');

/** The first of the benches with nothing on it in that time. */
export async function findFreeBench(
  sql: SqlRunner,
  wish: { studioId: string; benchIds: readonly string[]; curing: Span; exceptId: string | null },
): Promise<string | null> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM unnest($2::uuid[]) WITH ORDINALITY AS bench (id, place)
      WHERE NOT EXISTS (
        SELECT 1 FROM appointments
         WHERE studio_id = $1 AND ${curingWithin} AND bench_id = bench.id AND curing && $3::tstzrange AND ${takesTime} AND NOT (${holdRanOut})
           AND ($4::uuid IS NULL OR id <> $4))
        AND NOT EXISTS (
        SELECT 1 FROM shoe_works
         WHERE studio_id = $1 AND ${curingWithin} AND bench_id = bench.id AND curing && $3::tstzrange AND state <> 'abandoned'
           AND ($4::uuid IS NULL OR appointment_id IS DISTINCT FROM $4))
      ORDER BY place LIMIT 1`,
    [wish.studioId, wish.benchIds, range(wish.curing), wish.exceptId],
  );
  return rows[0]?.id ?? null;
}

export async function updateSlot(
  tx: EntityManager,
  key: Key & { version: number },
  slot: Slot,
): Promise<boolean> {
  const { affected } = await tx.update(Appointment, key, {
    ...columnsOf(slot),
    version: key.version + 1,
  });
  return affected === 1;
}

export async function updateState(
  tx: EntityManager,
  key: Key & { version: number },
  state: AppointmentState,
  cancellation?: { cancelReason: string; cancelledBy: Canceller; cancelledLate: boolean },
): Promise<boolean> {
  const { affected } = await tx.update(Appointment, key, {
    state,
    ...cancellation,
    version: key.version + 1,
  });
  return affected === 1;
}

export interface VisitFacts {
  readonly begun: boolean;
  /** Now is later than the notice the service asks for before a cancellation. */
  readonly late: boolean;
  readonly prerequisites: Prerequisite[];
  readonly intakeTaken: boolean;
}

export async function visitFacts(sql: SqlRunner, key: Key): Promise<VisitFacts> {
  const [facts] = await sql.query<[VisitFacts]>(
    `SELECT lower(a.during) <= app_now() AS begun,
            lower(a.during) - make_interval(hours => s.cancellation_notice_hours) < app_now() AS late,
            s.prerequisites,
            EXISTS (SELECT 1 FROM screenings c WHERE c.studio_id = a.studio_id
                       AND c.client_id IN (SELECT * FROM app_same_client(a.studio_id, a.client_id))) AS "intakeTaken"
       FROM appointments a JOIN services s ON s.studio_id = a.studio_id AND s.id = a.service_id
      WHERE a.studio_id = $1 AND a.id = $2`,
    [key.studioId, key.id],
  );
  return facts;
}

/** Write down what was done with it, and how it stands now. */
export async function insertChange(
  sql: SqlRunner,
  key: Key,
  change: { action: string; reason: string | null; changedBy: string | null },
): Promise<void> {
  await sql.query(
    `INSERT INTO appointment_changes
       (studio_id, appointment_id, state, during, fitter_id, room_id, bench_id, action, reason, changed_by)
     SELECT studio_id, id, state, during, fitter_id, room_id, bench_id, $3, $4, $5
       FROM appointments WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id, change.action, change.reason, change.changedBy],
  );
}

export function listChanges(sql: SqlRunner, key: Key): Promise<AppointmentChangeResponse[]> {
  return sql.query<AppointmentChangeResponse[]>(
    `SELECT id, action, state, ${utc('lower(during)')} AS "startsAt", ${utc('upper(during)')} AS "endsAt",
            fitter_id AS "fitterId", room_id AS "roomId", bench_id AS "benchId", reason,
            changed_by AS "changedBy", ${utc('created_at')} AS "changedAt"
       FROM appointment_changes WHERE studio_id = $1 AND appointment_id = $2 ORDER BY id`,
    [key.studioId, key.id],
  );
}

export async function isFitter(sql: SqlRunner, studioId: string, userId: string): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM users WHERE studio_id = $1 AND id = $2 AND 'fitter' = ANY(roles) AND disabled_at IS NULL`,
    [studioId, userId],
  );
  return rows.length === 1;
}
