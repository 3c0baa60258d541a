import {
  SlotOffer,
  SlotWish,
  type OfferState,
  type SqlRunner,
  type WishedTime,
  type WishState,
  whenGiven,
  survivorOf,
} from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

export interface WishRecord {
  readonly id: string;
  readonly clientId: string;
  readonly clientName: string;
  readonly serviceId: string;
  readonly fitterId: string | null;
  readonly siteId: string | null;
  readonly weekdays: number[];
  readonly times: WishedTime[];
  readonly firstDay: string;
  readonly lastDay: string;
  readonly state: WishState;
  readonly waitingSince: string;
  readonly version: number;
}

const wishColumns = `w.id, c.id AS "clientId", c.given_name || ' ' || c.family_name AS "clientName",
  w.service_id AS "serviceId", w.fitter_id AS "fitterId", w.site_id AS "siteId", w.weekdays, w.times,
  to_char(w.first_day, 'YYYY-MM-DD') AS "firstDay", to_char(w.last_day, 'YYYY-MM-DD') AS "lastDay", w.state,
  ${utc('w.created_at')} AS "waitingSince", w.version`;
const wishTables = `slot_wishes w
  JOIN clients of ON of.studio_id = w.studio_id AND of.id = w.client_id
  JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}`;

export async function insertWish(
  tx: EntityManager,
  row: Omit<SlotWish, 'id' | 'createdAt' | 'state' | 'version'>,
): Promise<string> {
  const { identifiers } = await tx.insert(SlotWish, row);
  return (identifiers[0] as { id: string }).id;
}

export async function findWish(sql: SqlRunner, key: Key): Promise<WishRecord | null> {
  const rows = await sql.query<WishRecord[]>(
    `SELECT ${wishColumns} FROM ${wishTables} WHERE w.studio_id = $1 AND w.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listWishes(
  sql: SqlRunner,
  page: {
    studioId: string;
    state: WishState | null;
    clientId: string | null;
    after: string | null;
    limit: number;
  },
): Promise<WishRecord[]> {
  return sql.query<WishRecord[]>(
    `SELECT ${wishColumns} FROM ${wishTables}
      WHERE w.studio_id = $1 AND ${whenGiven(page.state, '$2::text', 'w.state = $2')}
        AND ${whenGiven(page.clientId, '$3::uuid', 'w.client_id IN (SELECT * FROM app_same_client($1, $3))')}
        AND ${whenGiven(page.after, '$4::uuid', 'w.id > $4')}
      ORDER BY w.id LIMIT $5`,
    [page.studioId, page.state, page.clientId, page.after, page.limit],
  );
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateWish(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Partial<Omit<SlotWish, 'studioId' | 'id' | 'createdAt' | 'version'>>,
): Promise<boolean> {
  const { affected } = await tx.update(SlotWish, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

/** Because of its offer; whoever has the wish before them finds its version raised. */
export async function setWishState(tx: EntityManager, key: Key, state: WishState): Promise<void> {
  await tx.update(SlotWish, key, { state, version: () => 'version + 1' });
}

export interface OfferRecord {
  readonly id: string;
  readonly wishId: string;
  readonly appointmentId: string;
  readonly startsAt: string;
  readonly state: OfferState;
  readonly expiresAt: string;
  readonly answeredAt: string | null;
  readonly answeredBy: string | null;
}

/** One that ran out is over, whether or not the worker has written it down. */
const offerColumns = `id, wish_id AS "wishId", appointment_id AS "appointmentId", ${utc('starts_at')} AS "startsAt",
  CASE WHEN state = 'open' AND expires_at <= app_now() THEN 'expired' ELSE state END AS state,
  ${utc('expires_at')} AS "expiresAt", ${utc('answered_at')} AS "answeredAt", answered_by AS "answeredBy"`;

export async function findOffer(sql: SqlRunner, key: Key): Promise<OfferRecord | null> {
  const rows = await sql.query<OfferRecord[]>(
    `SELECT ${offerColumns} FROM slot_offers WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** Of several who answer at once, all but the first wait here, and find it answered. */
export async function lockOffer(tx: EntityManager, key: Key): Promise<OfferRecord | null> {
  await tx.findOne(SlotOffer, { where: key, lock: { mode: 'pessimistic_write' } });
  return findOffer(tx, key);
}

export function listOffers(sql: SqlRunner, of: { studioId: string; wishId: string }): Promise<OfferRecord[]> {
  return sql.query<OfferRecord[]>(
    `SELECT ${offerColumns} FROM slot_offers WHERE studio_id = $1 AND wish_id = $2 ORDER BY id DESC`,
    [of.studioId, of.wishId],
  );
}

export async function findOpenOffer(
  sql: SqlRunner,
  of: { studioId: string; wishId: string },
): Promise<string | null> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM slot_offers WHERE studio_id = $1 AND wish_id = $2 AND state = 'open'`,
    [of.studioId, of.wishId],
  );
  return rows[0]?.id ?? null;
}

export async function endOffer(
  tx: EntityManager,
  key: Key,
  ended: { state: 'accepted' | 'declined'; answeredBy: string | null } | { state: 'withdrawn' },
): Promise<void> {
  const answered = ended.state === 'withdrawn' ? {} : { answeredAt: () => 'app_now()' };
  await tx.update(SlotOffer, key, { ...ended, ...answered });
}

export async function findLinkHash(sql: SqlRunner, key: Key): Promise<Buffer | null> {
  const rows = await sql.query<{ hash: Buffer }[]>(
    `SELECT link_hash AS hash FROM slot_offers WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0]?.hash ?? null;
}

export interface ShownOffer {
  readonly studio: string;
  readonly service: string;
  readonly fitter: string;
  readonly site: string | null;
  readonly startsAt: Date;
  readonly expiresAt: Date;
  readonly timeZone: string;
}

/** What the client is shown: nothing of anybody, not even their own name. */
export async function getShownOffer(sql: SqlRunner, key: Key): Promise<ShownOffer> {
  const [row] = await sql.query<[ShownOffer]>(
    `SELECT s.name AS studio, v.name AS service, u.display_name AS fitter, sites.name AS site,
            o.starts_at AS "startsAt", o.expires_at AS "expiresAt",
            coalesce(sites.time_zone, s.time_zone) AS "timeZone"
       FROM slot_offers o
       JOIN studios s ON s.id = o.studio_id
       JOIN appointments a ON a.studio_id = o.studio_id AND a.id = o.appointment_id
       JOIN services v ON v.studio_id = a.studio_id AND v.id = a.service_id
       JOIN users u ON u.studio_id = a.studio_id AND u.id = a.fitter_id
       JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
       LEFT JOIN sites ON sites.studio_id = r.studio_id AND sites.id = r.site_id
      WHERE o.studio_id = $1 AND o.id = $2`,
    [key.studioId, key.id],
  );
  return row;
}

export async function findOfferMinutes(sql: SqlRunner, studioId: string): Promise<number | null> {
  const rows = await sql.query<{ minutes: number }[]>(
    `SELECT offer_minutes AS minutes FROM waiting_list_settings WHERE studio_id = $1`,
    [studioId],
  );
  return rows[0]?.minutes ?? null;
}

/** @returns the record's id */
export async function putOfferMinutes(
  tx: EntityManager,
  { studioId, offerMinutes }: { studioId: string; offerMinutes: number },
): Promise<string> {
  const [{ id }] = await tx.query<[{ id: string }]>(
    `INSERT INTO waiting_list_settings (studio_id, offer_minutes) VALUES ($1, $2)
       ON CONFLICT ON CONSTRAINT waiting_list_settings_once
       DO UPDATE SET offer_minutes = EXCLUDED.offer_minutes, version = waiting_list_settings.version + 1
     RETURNING id`,
    [studioId, offerMinutes],
  );
  return id;
}
