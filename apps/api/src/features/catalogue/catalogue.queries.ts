import { Service } from '@studio/database';
import { MoreThan, type EntityManager } from 'typeorm';

export type ServiceFields = Partial<Omit<Service, 'studioId' | 'id' | 'createdAt' | 'version' | 'retiredAt'>>;

export async function insertService(
  tx: EntityManager,
  studioId: string,
  fields: ServiceFields,
): Promise<string> {
  const { identifiers } = await tx.insert(Service, { studioId, ...fields });
  return (identifiers[0] as { id: string }).id;
}

export function listServices(
  tx: EntityManager,
  { studioId, after, limit }: { studioId: string; after: string | null; limit: number },
): Promise<Service[]> {
  return tx.find(Service, {
    where: { studioId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}

export function findService(tx: EntityManager, studioId: string, id: string): Promise<Service | null> {
  return tx.findOneBy(Service, { studioId, id });
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateService(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  fields: ServiceFields,
  retired: boolean | undefined,
): Promise<boolean> {
  const { affected } = await tx.update(Service, key, {
    ...fields,
    ...(retired !== undefined && { retiredAt: retired ? () => 'coalesce(retired_at, app_now())' : null }),
    version: key.version + 1,
  });
  return affected === 1;
}
