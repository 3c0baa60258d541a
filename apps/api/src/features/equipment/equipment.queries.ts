import { Bike, Shoe } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface OfClient {
  studioId: string;
  clientId: string;
}

export function insertBike(
  tx: EntityManager,
  row: OfClient & Pick<Bike, 'name' | 'crankLengthMm' | 'seatTubeAngleDeg'>,
): Promise<Bike> {
  return tx.save(tx.create(Bike, row));
}

export function listBikes(tx: EntityManager, key: OfClient): Promise<Bike[]> {
  return tx.find(Bike, { where: key, order: { id: 'ASC' } });
}

export function findBike(tx: EntityManager, key: OfClient & { id: string }): Promise<Bike | null> {
  return tx.findOneBy(Bike, key);
}

export function insertShoe(
  tx: EntityManager,
  row: OfClient & Omit<Shoe, keyof OfClient | 'id' | 'createdAt'>,
): Promise<Shoe> {
  return tx.save(tx.create(Shoe, row));
}

export function listShoes(tx: EntityManager, key: OfClient): Promise<Shoe[]> {
  return tx.find(Shoe, { where: key, order: { id: 'ASC' } });
}

export function findShoe(tx: EntityManager, key: OfClient & { id: string }): Promise<Shoe | null> {
  return tx.findOneBy(Shoe, key);
}
