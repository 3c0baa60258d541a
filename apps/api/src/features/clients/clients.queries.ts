import {
  Client,
  ClientConsent,
  opened,
  sameClientIds,
  type ConsentKind,
  type SqlRunner,
} from '@studio/database';
import { In, type EntityManager } from 'typeorm';
import { beforeEveryId, longestPage } from '../../http/paging.js';
import type { ClientResponse, Likeness, LikelyDuplicateResponse } from './clients.dto.js';

const columns = `id, given_name AS "givenName", family_name AS "familyName", email, phone,
  to_char(born_on, 'YYYY-MM-DD') AS "bornOn", tags, note, language, do_not_contact AS "doNotContact",
  coalesce(email = undeliverable_email, false) AS "emailUndeliverable",
  guardian_id AS "guardianId", merged_into AS "mergedInto",
  to_char(restricted_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "restrictedAt", version,
  to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt"`;

export async function findClient(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<ClientResponse | null> {
  const rows = await sql.query<ClientResponse[]>(
    `SELECT ${columns} FROM clients WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return opened(rows, 'note')[0] ?? null;
}

/** In the order of bytes, from the text itself to what lies behind everything that begins with it. */
const beginsAlike = (column: string, text: string): string =>
  `(${column} >= lower(${text}) AND ${column} < lower(${text}) || chr(1114111))`;

/**
 * PostgreSQL keeps the plan of a page whose greatest length it knows. Of a parameter alone it knows none, and plans every
 * page anew, which takes longer than to read it.
 */
export async function listClients(
  sql: SqlRunner,
  page: { studioId: string; name: string | null; tag: string | null; after: string | null; limit: number },
): Promise<ClientResponse[]> {
  // An array, since of a subquery's rows the page would be looked for among all clients.
  const named = `id = ANY (ARRAY(
    SELECT coalesce(merged_into, id) FROM clients
     WHERE studio_id = $1
       AND (${beginsAlike('family_name_lower', '$3')} OR ${beginsAlike('given_name_lower', '$3')})))`;
  const rows = await sql.query<ClientResponse[]>(
    `SELECT * FROM (
       SELECT ${columns} FROM clients
        WHERE studio_id = $1 AND merged_into IS NULL AND NOT stands_for_erased AND id > $2
          AND ${page.name === null ? '$3::text IS NULL' : named}
          AND ${page.tag === null ? '$4::text IS NULL' : '$4 = ANY(tags)'}
        ORDER BY id
        LIMIT ${String(longestPage + 1)}) AS longest
      LIMIT $5`,
    [page.studioId, page.after ?? beforeEveryId, page.name, page.tag, page.limit],
  );
  return opened(rows, 'note');
}

type ClientFields = Partial<Omit<Client, 'studioId' | 'id' | 'version' | 'createdAt'>>;

export async function insertClient(
  tx: EntityManager,
  studioId: string,
  fields: ClientFields,
): Promise<string> {
  const { identifiers } = await tx.insert(Client, { studioId, ...fields });
  return (identifiers[0] as { id: string }).id;
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateClient(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  fields: ClientFields,
): Promise<boolean> {
  const { affected } = await tx.update(Client, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

/** One that stands under this record, but was overruled by a merge, is replaced. */
export async function insertConsent(
  tx: EntityManager,
  row: {
    studioId: string;
    clientId: string;
    kind: ConsentKind;
    textVersion: string;
    takenBy: string | null;
    guardianId: string | null;
  },
): Promise<ClientConsent> {
  await tx.query(
    `UPDATE client_consents SET withdrawn_at = app_now(), withdrawal_recorded_by = $4
      WHERE studio_id = $1 AND client_id = $2 AND kind = $3 AND withdrawn_at IS NULL
        AND NOT app_consented($1, $2, $3)`,
    [row.studioId, row.clientId, row.kind, row.takenBy],
  );
  return tx.save(tx.create(ClientConsent, row));
}

export async function listConsents(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
): Promise<ClientConsent[]> {
  const clientId = In(await sameClientIds(tx, key));
  return tx.find(ClientConsent, { where: { studioId: key.studioId, clientId }, order: { id: 'ASC' } });
}

/** Whether the consent holds for the person, whichever of their records it was given under. */
export async function isConsented(
  sql: SqlRunner,
  key: { studioId: string; clientId: string; kind: ConsentKind },
): Promise<boolean> {
  const [{ holds }] = await sql.query<[{ holds: boolean }]>('SELECT app_consented($1, $2, $3) AS holds', [
    key.studioId,
    key.clientId,
    key.kind,
  ]);
  return holds;
}

/** Under every record of the person. */
export async function withdrawConsent(
  tx: EntityManager,
  key: { studioId: string; clientId: string; kind: ConsentKind },
  recordedBy: string | null,
): Promise<boolean> {
  const rows = await tx.query<[{ id: string }[], number]>(
    `UPDATE client_consents SET withdrawn_at = app_now(), withdrawal_recorded_by = $4
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND kind = $3
        AND withdrawn_at IS NULL
      RETURNING id`,
    [key.studioId, key.clientId, key.kind, recordedBy],
  );
  return rows[0].length > 0;
}

/**
 * By the studio's own calendar; unknown without a birth date, and then nobody is held to be a minor. Of the birth dates
 * of records that were merged the latest counts.
 */
export async function isMinor(sql: SqlRunner, key: { studioId: string; id: string }): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM clients c JOIN studios s ON s.id = c.studio_id
      WHERE c.studio_id = $1 AND c.id IN (SELECT * FROM app_same_client($1, $2))
        AND c.born_on > ((app_now() AT TIME ZONE s.time_zone)::date - make_interval(years => $3))`,
    [key.studioId, key.id, ageOfMajorityYears],
  );
  return rows.length === 1;
}

/** House rule, after article 1 of the UN convention on the rights of the child; a country may have another age. */
const ageOfMajorityYears = 18;

/**
 * Other clients who may be the same person, likeliest first. An address, a number or a birth date in common is not
 * enough where the names are nothing alike: families share them.
 */
export async function listLikelyDuplicates(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<LikelyDuplicateResponse[]> {
  const rows = await sql.query<(ClientResponse & { same: Likeness[]; nameSimilarity: number })[]>(
    `WITH one AS (SELECT *, lower(given_name || ' ' || family_name) AS name
                    FROM clients WHERE studio_id = $1 AND id = $2),
          compared AS (
            SELECT other.*, similarity(lower(other.given_name || ' ' || other.family_name), one.name) AS alike,
                   array_remove(ARRAY[
                     CASE WHEN other.email = one.email THEN 'email' END,
                     CASE WHEN other.phone_e164 = one.phone_e164 THEN 'phone' END,
                     CASE WHEN other.born_on = one.born_on THEN 'birth_date' END,
                     CASE WHEN lower(other.given_name || ' ' || other.family_name) = one.name THEN 'name' END],
                   NULL) AS same
              FROM clients other, one
             WHERE other.studio_id = $1 AND other.merged_into IS NULL AND other.id <> coalesce(one.merged_into, one.id))
     SELECT ${columns}, same, round(alike::numeric, 2)::double precision AS "nameSimilarity"
       FROM compared
      WHERE alike >= 0.6 OR (alike >= 0.3 AND cardinality(same) > 0) OR cardinality(same) > 1
      ORDER BY cardinality(same) DESC, alike DESC, id LIMIT 20`,
    [key.studioId, key.id],
  );
  return rows.map(({ same, nameSimilarity, ...client }) => ({ client, same, nameSimilarity }));
}
