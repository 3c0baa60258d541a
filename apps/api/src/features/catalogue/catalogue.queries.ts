import { Room, Service } from '@studio/database';
import type { EntityManager } from 'typeorm';

export function insertService(
  tx: EntityManager,
  row: Pick<Service, 'studioId' | 'name' | 'durationMinutes'>,
): Promise<Service> {
  return tx.save(tx.create(Service, row));
}

export function listServices(tx: EntityManager, studioId: string): Promise<Service[]> {
  return tx.find(Service, { where: { studioId }, order: { name: 'ASC' } });
}

export function findService(tx: EntityManager, studioId: string, id: string): Promise<Service | null> {
  return tx.findOneBy(Service, { studioId, id });
}

export function insertRoom(tx: EntityManager, row: Pick<Room, 'studioId' | 'name'>): Promise<Room> {
  return tx.save(tx.create(Room, row));
}

export function listRooms(tx: EntityManager, studioId: string): Promise<Room[]> {
  return tx.find(Room, { where: { studioId }, order: { name: 'ASC' } });
}
