import { sameClientIds, StoredFile } from '@studio/database';
import { In, MoreThan, type EntityManager, type FindOptionsWhere } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export async function newFileId(tx: EntityManager): Promise<string> {
  const [{ id }] = await tx.query<[{ id: string }]>('SELECT uuidv7() AS id');
  return id;
}

/** Whether the client has them all; an id left out is no question. */
export async function subjectsAreOf(
  tx: EntityManager,
  client: { studioId: string; clientId: string },
  subjects: { fitSessionId: string | null; bikeId: string | null; shoeId: string | null },
): Promise<Record<keyof typeof subjects, boolean>> {
  const [row] = await tx.query<[Record<keyof typeof subjects, boolean>]>(
    `SELECT $3::uuid IS NULL OR EXISTS (SELECT FROM fit_sessions
              WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND id = $3) AS "fitSessionId",
            $4::uuid IS NULL OR EXISTS (SELECT FROM bikes
              WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND id = $4) AS "bikeId",
            $5::uuid IS NULL OR EXISTS (SELECT FROM shoes
              WHERE studio_id = $1 AND client_id IN (SELECT * FROM app_same_client($1, $2)) AND id = $5) AS "shoeId"`,
    [client.studioId, client.clientId, subjects.fitSessionId, subjects.bikeId, subjects.shoeId],
  );
  return row;
}

export async function insertFile(tx: EntityManager, row: Omit<StoredFile, 'createdAt'>): Promise<StoredFile> {
  await tx.insert(StoredFile, row);
  return tx.findOneByOrFail(StoredFile, { studioId: row.studioId, id: row.id });
}

export function findFile(tx: EntityManager, { studioId, id }: Key): Promise<StoredFile | null> {
  return tx.findOneBy(StoredFile, { studioId, id });
}

/** Of all records of the person. */
export async function listFiles(
  tx: EntityManager,
  page: {
    studioId: string;
    clientId: string;
    only: { fitSessionId?: string; bikeId?: string; shoeId?: string };
    after: string | null;
    limit: number;
  },
): Promise<StoredFile[]> {
  const { studioId, clientId, only, after, limit } = page;
  const where: FindOptionsWhere<StoredFile> = {
    ...{ studioId, clientId: In(await sameClientIds(tx, { studioId, clientId })), ...only },
    ...(after !== null && { id: MoreThan(after) }),
  };
  return tx.find(StoredFile, { where, order: { id: 'ASC' }, take: limit });
}

export async function deleteFile(tx: EntityManager, { studioId, id }: Key): Promise<void> {
  await tx.delete(StoredFile, { studioId, id });
}
