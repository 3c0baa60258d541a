import { Bike, sameClientIds, Shoe } from '@studio/database';
import { In, type EntityManager } from 'typeorm';

interface OfClient {
  studioId: string;
  clientId: string;
}

/** Of every record of the person. */
async function ofPerson(tx: EntityManager, key: OfClient) {
  return { studioId: key.studioId, clientId: In(await sameClientIds(tx, key)) };
}

export function insertBike(
  tx: EntityManager,
  row: OfClient & Pick<Bike, 'name' | 'crankLengthMm' | 'seatTubeAngleDeg'>,
): Promise<Bike> {
  return tx.save(tx.create(Bike, row));
}

export async function listBikes(tx: EntityManager, key: OfClient): Promise<Bike[]> {
  return tx.find(Bike, { where: await ofPerson(tx, key), order: { id: 'ASC' } });
}

export async function findBike(tx: EntityManager, key: OfClient & { id: string }): Promise<Bike | null> {
  return tx.findOneBy(Bike, { ...(await ofPerson(tx, key)), id: key.id });
}

export function insertShoe(
  tx: EntityManager,
  row: OfClient & Omit<Shoe, keyof OfClient | 'id' | 'createdAt'>,
): Promise<Shoe> {
  return tx.save(tx.create(Shoe, row));
}

export async function listShoes(tx: EntityManager, key: OfClient): Promise<Shoe[]> {
  return tx.find(Shoe, { where: await ofPerson(tx, key), order: { id: 'ASC' } });
}

export async function findShoe(tx: EntityManager, key: OfClient & { id: string }): Promise<Shoe | null> {
  return tx.findOneBy(Shoe, { ...(await ofPerson(tx, key)), id: key.id });
}
