import type { Shoe } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { UnknownReference } from '../../http/problem.js';
import { findBike, type OfClient } from './bikes.queries.js';
import { PutAway } from './equipment.errors.js';
import { findShoe } from './shoes.queries.js';

export { bikeUses, type BikeUse } from './bikes.dto.js';
export { findBike, findBikeResponse } from './bikes.queries.js';
export { findShoe } from './shoes.queries.js';

/** @throws UnknownReference when the client has no such bike or shoes, PutAway when they are no longer used */
export async function requireInUse(
  tx: EntityManager,
  { bikeId, shoeId, ...of }: OfClient & { bikeId: string; shoeId: string },
): Promise<void> {
  const bike = await findBike(tx, { ...of, id: bikeId });
  if (!bike) throw new UnknownReference('bikeId');
  if (bike.archivedAt !== null) throw new PutAway('bikeId');
  await requireShoeInUse(tx, { ...of, shoeId });
}

/** @throws UnknownReference when the client has no such shoes, PutAway when they are no longer used */
export async function requireShoeInUse(
  tx: EntityManager,
  { shoeId, ...of }: OfClient & { shoeId: string },
): Promise<Shoe> {
  const shoe = await findShoe(tx, { ...of, id: shoeId });
  if (!shoe) throw new UnknownReference('shoeId');
  if (shoe.archivedAt !== null) throw new PutAway('shoeId');
  return shoe;
}
