import {
  Client,
  personCategories,
  RightsRequest,
  sameClientIds,
  type RightsRequestState,
  type SqlRunner,
} from '@studio/database';
import { In, IsNull, MoreThan, Not, type EntityManager } from 'typeorm';
import type { ErasedPart } from './answer-text.js';

interface Key {
  studioId: string;
  id: string;
}

export async function insertRequest(
  tx: EntityManager,
  row: Pick<RightsRequest, 'studioId' | 'clientId' | 'kind' | 'receivedOn' | 'dueOn' | 'recordedBy'>,
): Promise<RightsRequest> {
  return tx.save(tx.create(RightsRequest, row));
}

export function findRequest(tx: EntityManager, key: Key): Promise<RightsRequest | null> {
  return tx.findOneBy(RightsRequest, key);
}

/** Locked, so that two who decide at once come one after the other. */
export function findRequestForUpdate(tx: EntityManager, key: Key): Promise<RightsRequest | null> {
  return tx.findOne(RightsRequest, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function listRequests(
  tx: EntityManager,
  page: {
    studioId: string;
    clientId?: string | undefined;
    state?: RightsRequestState | undefined;
    after: string | null;
    limit: number;
  },
): Promise<RightsRequest[]> {
  const { studioId, clientId, state, after, limit } = page;
  return tx.find(RightsRequest, {
    where: {
      studioId,
      ...(clientId !== undefined && { clientId: In(await sameClientIds(tx, { studioId, clientId })) }),
      ...(state !== undefined && { state }),
      ...(after !== null && { id: MoreThan(after) }),
    },
    order: { id: 'ASC' },
    take: limit,
  });
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateRequest(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Partial<Omit<RightsRequest, 'studioId' | 'id' | 'version' | 'createdAt' | 'decidedAt'>>,
): Promise<boolean> {
  const { affected } = await tx.update(RightsRequest, key, {
    ...fields,
    ...(fields.decidedBy !== undefined && { decidedAt: () => 'app_now()' }),
    version: key.version + 1,
  });
  return affected === 1;
}

/** Of requests for erasure: each part of the data once, as long as the last of the person's records keeps it. */
export async function listParts(
  sql: SqlRunner,
  of: { studioId: string; requestIds: readonly string[] },
): Promise<Map<string, ErasedPart[]>> {
  const rows = await sql.query<(ErasedPart & { requestId: string })[]>(
    `SELECT request_id AS "requestId", category, max(kept_by_law) AS "keptByLaw",
            to_char(max(erase_on), 'YYYY-MM-DD') AS "eraseOn", bool_and(erased_at IS NOT NULL) AS erased
       FROM erasures WHERE studio_id = $1 AND request_id = ANY ($2)
      GROUP BY request_id, category ORDER BY request_id, array_position($3::text[], category)`,
    [of.studioId, of.requestIds, personCategories],
  );
  const parts = new Map<string, ErasedPart[]>();
  for (const { requestId, ...part } of rows) parts.set(requestId, [...(parts.get(requestId) ?? []), part]);
  return parts;
}

/** All records of the person, from now on or not any more. */
export async function restrict(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
  restricted: boolean,
): Promise<void> {
  await tx.update(
    Client,
    { studioId: of.studioId, id: In(await sameClientIds(tx, of)) },
    { restrictedAt: restricted ? () => 'app_now()' : null },
  );
}

export function isRestricted(
  tx: EntityManager,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<boolean> {
  return tx.existsBy(Client, { studioId, id: clientId, restrictedAt: Not(IsNull()) });
}

/** Visits of the person that are still to come; a time held for an offer lapses by itself. */
export async function bookedVisits(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM appointments
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2))
        AND state IN ('booked', 'checked_in') AND upper(during) > app_now()`,
    [of.studioId, of.clientId],
  );
  return rows.map(({ id }) => id);
}

/** Whether something of the person waits to be erased. */
export async function waitsForErasure(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM rights_requests
      WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2))
        AND kind = 'erasure' AND state IN ('under_way', 'done') LIMIT 1`,
    [of.studioId, of.clientId],
  );
  return rows.length > 0;
}
