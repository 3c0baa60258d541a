import { PairedPosition, sameClientIds } from '@studio/database';
import { In, MoreThan, type EntityManager } from 'typeorm';

export async function insertPairedPosition(
  tx: EntityManager,
  row: Omit<PairedPosition, 'id' | 'createdAt'>,
): Promise<PairedPosition> {
  const { identifiers } = await tx.insert(PairedPosition, row);
  return tx.findOneByOrFail(PairedPosition, {
    studioId: row.studioId,
    id: (identifiers[0] as { id: string }).id,
  });
}

export function findPairedPosition(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<PairedPosition | null> {
  return tx.findOneBy(PairedPosition, key);
}

/** Of whichever record of the person. */
export async function listPairedPositions(
  tx: EntityManager,
  page: { studioId: string; clientId: string; after: string | null; limit: number },
): Promise<PairedPosition[]> {
  const { studioId, after, limit } = page;
  const clientId = In(await sameClientIds(tx, page));
  return tx.find(PairedPosition, {
    where: { studioId, clientId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}
