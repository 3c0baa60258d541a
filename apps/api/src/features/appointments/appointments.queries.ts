import { Appointment, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { AppointmentResponse } from './appointments.dto.js';

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

const columns = `id, client_id AS "clientId", service_id AS "serviceId", fitter_id AS "fitterId", room_id AS "roomId",
  ${utc('lower(during)')} AS "startsAt", ${utc('upper(during)')} AS "endsAt", state, version`;

export async function findAppointment(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<AppointmentResponse | null> {
  const rows = await sql.query<AppointmentResponse[]>(
    `SELECT ${columns} FROM appointments WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listAppointments(
  sql: SqlRunner,
  page: { studioId: string; from: string; to: string; after: string | null; limit: number },
): Promise<AppointmentResponse[]> {
  return sql.query<AppointmentResponse[]>(
    `SELECT ${columns} FROM appointments
      WHERE studio_id = $1 AND during && tstzrange($2, $3) AND ($4::uuid IS NULL OR id > $4)
      ORDER BY id LIMIT $5`,
    [page.studioId, page.from, page.to, page.after, page.limit],
  );
}

export interface Slot {
  studioId: string;
  fitterId: string;
  roomId: string;
  startsAt: string;
  endsAt: string;
}

/** Half-open, so that one visit may begin when another ends. */
const range = (slot: Pick<Slot, 'startsAt' | 'endsAt'>): string => `[${slot.startsAt},${slot.endsAt})`;

export async function insertAppointment(
  tx: EntityManager,
  row: Slot & { clientId: string; serviceId: string },
): Promise<string> {
  const { startsAt, endsAt, ...ids } = row;
  const { identifiers } = await tx.insert(Appointment, { ...ids, during: range({ startsAt, endsAt }) });
  return (identifiers[0] as { id: string }).id;
}

/** A booked visit that stands in the way of the slot, other than `exceptId` itself. */
export async function findClash(
  sql: SqlRunner,
  slot: Slot & { exceptId: string | null },
): Promise<{ resource: 'fitter' | 'room'; startsAt: string; endsAt: string } | null> {
  const rows = await sql.query<{ resource: 'fitter' | 'room'; startsAt: string; endsAt: string }[]>(
    `SELECT CASE WHEN fitter_id = $2 THEN 'fitter' ELSE 'room' END AS resource,
            ${utc('lower(during)')} AS "startsAt", ${utc('upper(during)')} AS "endsAt"
       FROM appointments
      WHERE studio_id = $1 AND (fitter_id = $2 OR room_id = $3) AND during && tstzrange($4, $5)
        AND state <> 'cancelled' AND ($6::uuid IS NULL OR id <> $6)
      ORDER BY lower(during) LIMIT 1`,
    [slot.studioId, slot.fitterId, slot.roomId, slot.startsAt, slot.endsAt, slot.exceptId],
  );
  return rows[0] ?? null;
}

export async function moveAppointment(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  slot: Slot,
): Promise<boolean> {
  const { affected } = await tx.update(
    Appointment,
    { ...key, state: 'booked' },
    { fitterId: slot.fitterId, roomId: slot.roomId, during: range(slot), version: key.version + 1 },
  );
  return affected === 1;
}

export async function cancelAppointment(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  cancelReason: string,
): Promise<boolean> {
  const { affected } = await tx.update(
    Appointment,
    { ...key, state: 'booked' },
    { state: 'cancelled', cancelReason, version: key.version + 1 },
  );
  return affected === 1;
}

export async function isFitter(sql: SqlRunner, studioId: string, userId: string): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM users WHERE studio_id = $1 AND id = $2 AND 'fitter' = ANY(roles) AND disabled_at IS NULL`,
    [studioId, userId],
  );
  return rows.length === 1;
}

export async function hasPassed(sql: SqlRunner, instant: string): Promise<boolean> {
  const rows = await sql.query<{ passed: boolean }[]>('SELECT $1::timestamptz <= app_now() AS passed', [
    instant,
  ]);
  return rows[0]?.passed ?? true;
}
