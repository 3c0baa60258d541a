import type { FreeSlot, Offer } from '@studio/availability';
import { visitTime } from '@studio/availability';
import {
  Appointment,
  AppointmentChange,
  SlotOffer,
  SlotWish,
  type SqlRunner,
  takenWithin,
  type WishedTime,
} from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

/** One pass over a studio's list at a time: offers go out in order. */
export async function takeTurn(tx: EntityManager, studioId: string): Promise<void> {
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('waiting list ' || $1, 0))`, [studioId]);
}

export interface EndedOffer {
  readonly id: string;
  readonly wishId: string;
  readonly clientId: string;
  readonly appointmentId: string;
  readonly ranOut: boolean;
}

/** Open offers whose time is over, or whose time is held no longer: moved, booked or called off by somebody. */
export function listEnded(tx: EntityManager, studioId: string): Promise<EndedOffer[]> {
  return tx.query<EndedOffer[]>(
    `SELECT o.id, o.wish_id AS "wishId", w.client_id AS "clientId", o.appointment_id AS "appointmentId",
            o.expires_at <= app_now() AS "ranOut"
       FROM slot_offers o
       JOIN slot_wishes w ON w.studio_id = o.studio_id AND w.id = o.wish_id
       JOIN appointments a ON a.studio_id = o.studio_id AND a.id = o.appointment_id
      WHERE o.studio_id = $1 AND o.state = 'open'
        AND (o.expires_at <= app_now() OR a.state <> 'held' OR lower(a.during) <> o.starts_at)
      ORDER BY o.id
        FOR UPDATE OF o`,
    [studioId],
  );
}

export async function endOffer(
  tx: EntityManager,
  { studioId, id }: Key,
  { wishId, ranOut }: EndedOffer,
): Promise<void> {
  await tx.update(SlotOffer, { studioId, id }, { state: ranOut ? 'expired' : 'withdrawn' });
  await setWishState(tx, { studioId, id: wishId }, ranOut ? 'unanswered' : 'waiting');
}

/** The time is free again: written down, as by whoever would want it next. */
export async function lapse(tx: EntityManager, key: Key): Promise<void> {
  const { affected } = await tx.update(
    Appointment,
    { ...key, state: 'held' },
    { state: 'lapsed', version: () => 'version + 1' },
  );
  if (affected === 1) await insertChange(tx, key, 'lapse');
}

/** Wishes whose last day is over are over. */
export async function endWishes(tx: EntityManager, studioId: string): Promise<void> {
  await tx.query(
    `UPDATE slot_wishes w SET state = 'run_out', version = version + 1
       FROM studios s
      WHERE s.id = w.studio_id AND w.studio_id = $1 AND w.state = 'waiting'
        AND w.last_day < (app_now() AT TIME ZONE s.time_zone)::date - 1`,
    [studioId],
  );
}

export async function listWaiting(sql: SqlRunner, studioId: string): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM slot_wishes WHERE studio_id = $1 AND state = 'waiting' ORDER BY id`,
    [studioId],
  );
  return rows.map(({ id }) => id);
}

export interface WaitingWish {
  readonly id: string;
  readonly clientId: string;
  readonly serviceId: string;
  readonly serviceName: string;
  readonly fitterId: string | null;
  readonly siteId: string | null;
  readonly weekdays: number[];
  readonly times: WishedTime[];
  readonly firstDay: string;
  readonly lastDay: string;
  /** Starts it had an offer of before, and did not take. */
  readonly offered: Date[];
  readonly offerMinutes: number;
  readonly timeZone: string;
  readonly quietFrom: string | null;
  readonly quietUntil: string | null;
  readonly now: Date;
}

/** Locked; its days from today on. */
export async function findWaiting(
  tx: EntityManager,
  key: Key & { usualMinutes: number },
): Promise<WaitingWish | null> {
  const rows = await tx.query<WaitingWish[]>(
    `SELECT w.id, coalesce(c.merged_into, c.id) AS "clientId", w.service_id AS "serviceId", v.name AS "serviceName",
            w.fitter_id AS "fitterId", w.site_id AS "siteId", w.weekdays, w.times,
            to_char(greatest(w.first_day, (app_now() AT TIME ZONE s.time_zone)::date - 1), 'YYYY-MM-DD') AS "firstDay",
            to_char(w.last_day, 'YYYY-MM-DD') AS "lastDay",
            ARRAY(SELECT o.starts_at FROM slot_offers o
                   WHERE o.studio_id = w.studio_id AND o.wish_id = w.id AND o.state IN ('declined', 'expired')) AS offered,
            coalesce(set.offer_minutes, $3) AS "offerMinutes", s.time_zone AS "timeZone",
            to_char(m.quiet_from, 'HH24:MI') AS "quietFrom", to_char(m.quiet_until, 'HH24:MI') AS "quietUntil",
            app_now() AS now
       FROM slot_wishes w
       JOIN studios s ON s.id = w.studio_id
       JOIN clients c ON c.studio_id = w.studio_id AND c.id = w.client_id
       JOIN services v ON v.studio_id = w.studio_id AND v.id = w.service_id
       LEFT JOIN waiting_list_settings set ON set.studio_id = w.studio_id
       LEFT JOIN message_settings m ON m.studio_id = w.studio_id
      WHERE w.studio_id = $1 AND w.id = $2 AND w.state = 'waiting'
        FOR UPDATE OF w`,
    [key.studioId, key.id, key.usualMinutes],
  );
  return rows[0] ?? null;
}

const range = (start: number, end: number): string =>
  `[${new Date(start).toISOString()},${new Date(end).toISOString()})`;

/** Holds that ran out stand in the way of the constraints until they are written down as lapsed. */
export async function lapseHoldsOf(
  tx: EntityManager,
  of: { studioId: string; fitterId: string; roomId: string; benchId: string | null; from: Date; to: Date },
): Promise<void> {
  const rows = await tx.query<{ id: string }[]>(
    `SELECT id FROM appointments
      WHERE studio_id = $1 AND ${takenWithin('$5', '$6')} AND state = 'held' AND hold_expires_at <= app_now()
        AND ((fitter_id = $2 OR room_id = $3) AND occupied && tstzrange($5, $6)
             OR bench_id = $4::uuid AND curing && tstzrange($5, $6))
      ORDER BY id FOR UPDATE`,
    [of.studioId, of.fitterId, of.roomId, of.benchId, of.from, of.to],
  );
  for (const { id } of rows) await lapse(tx, { studioId: of.studioId, id });
}

export async function hold(
  tx: EntityManager,
  of: {
    studioId: string;
    clientId: string;
    serviceId: string;
    fitterId: string;
    roomId: string;
    benchId: string | null;
    until: Date;
  },
  { startsAt }: FreeSlot,
  offer: Offer,
): Promise<string> {
  const { studioId, until, ...row } = of;
  const visit = visitTime(offer);
  const start = Date.parse(startsAt);
  const end = start + visit.durationMs;
  const { identifiers } = await tx.insert(Appointment, {
    ...{ studioId, ...row, state: 'held', holdExpiresAt: until },
    during: range(start, end),
    occupied: range(start - visit.bufferBeforeMs, end + visit.bufferAfterMs),
    curing: row.benchId === null ? null : range(end, end + visit.curingMs),
  });
  const { id } = identifiers[0] as { id: string };
  await insertChange(tx, { studioId, id }, 'hold');
  return id;
}

async function insertChange(tx: EntityManager, key: Key, action: 'hold' | 'lapse'): Promise<void> {
  const row = await tx.findOneByOrFail(Appointment, { studioId: key.studioId, id: key.id });
  const { studioId, state, during, fitterId, roomId, benchId } = row;
  await tx.insert(AppointmentChange, {
    ...{ studioId, appointmentId: key.id, state, during, fitterId, roomId, benchId, action },
    ...{ reason: null, changedBy: null },
  });
}

export async function insertOffer(
  tx: EntityManager,
  row: Pick<SlotOffer, 'studioId' | 'wishId' | 'appointmentId' | 'startsAt' | 'expiresAt' | 'linkHash'>,
): Promise<string> {
  const { identifiers } = await tx.insert(SlotOffer, row);
  await setWishState(tx, { studioId: row.studioId, id: row.wishId }, 'offered');
  return (identifiers[0] as { id: string }).id;
}

async function setWishState(tx: EntityManager, key: Key, state: SlotWish['state']): Promise<void> {
  await tx.update(SlotWish, { studioId: key.studioId, id: key.id }, { state, version: () => 'version + 1' });
}
