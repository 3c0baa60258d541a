import { Client, ClientConsent, type ConsentKind, type SqlRunner } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { ClientResponse } from './clients.dto.js';

const columns = `id, given_name AS "givenName", family_name AS "familyName", email, phone,
  to_char(born_on, 'YYYY-MM-DD') AS "bornOn", version,
  to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt"`;

export async function findClient(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<ClientResponse | null> {
  const rows = await sql.query<ClientResponse[]>(
    `SELECT ${columns} FROM clients WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listClients(
  sql: SqlRunner,
  page: { studioId: string; name: string | null; after: string | null; limit: number },
): Promise<ClientResponse[]> {
  return sql.query<ClientResponse[]>(
    `SELECT ${columns} FROM clients
      WHERE studio_id = $1
        AND ($2::uuid IS NULL OR id > $2)
        AND ($3::text IS NULL OR starts_with(lower(family_name), lower($3)) OR starts_with(lower(given_name), lower($3)))
      ORDER BY id
      LIMIT $4`,
    [page.studioId, page.after, page.name, page.limit],
  );
}

type ClientFields = Partial<Pick<Client, 'givenName' | 'familyName' | 'email' | 'phone' | 'bornOn'>>;

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

export async function insertConsent(
  tx: EntityManager,
  row: { studioId: string; clientId: string; kind: ConsentKind; textVersion: string; takenBy: string | null },
): Promise<ClientConsent> {
  return tx.save(tx.create(ClientConsent, row));
}

export function listConsents(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
): Promise<ClientConsent[]> {
  return tx.find(ClientConsent, { where: key, order: { id: 'ASC' } });
}

export function findStandingConsent(
  tx: EntityManager,
  key: { studioId: string; clientId: string; kind: ConsentKind },
): Promise<ClientConsent | null> {
  return tx.findOneBy(ClientConsent, { ...key, withdrawnAt: IsNull() });
}

export async function withdrawConsent(
  tx: EntityManager,
  key: { studioId: string; clientId: string; kind: ConsentKind },
  recordedBy: string | null,
): Promise<string | null> {
  const rows = await tx.query<[{ id: string }[], number]>(
    `UPDATE client_consents SET withdrawn_at = app_now(), withdrawal_recorded_by = $4
      WHERE studio_id = $1 AND client_id = $2 AND kind = $3 AND withdrawn_at IS NULL
      RETURNING id`,
    [key.studioId, key.clientId, key.kind, recordedBy],
  );
  return rows[0][0]?.id ?? null;
}
