import { Bench, Room, Site, Studio } from '@studio/database';
import { MoreThan, type EntityManager } from 'typeorm';

/** The three kinds of place, which are written and read alike. */
export const places = { site: Site, room: Room, bench: Bench } as const;
export type PlaceKind = keyof typeof places;
export interface PlaceFields {
  name?: string;
  timeZone?: string;
  siteId?: string | null;
  equipment?: string[];
}
type Place<Kind extends PlaceKind> = InstanceType<(typeof places)[Kind]>;

export async function insertPlace(
  tx: EntityManager,
  kind: PlaceKind,
  row: PlaceFields & { studioId: string },
): Promise<string> {
  const { identifiers } = await tx.insert(places[kind], row);
  return (identifiers[0] as { id: string }).id;
}

export async function findPlace<Kind extends PlaceKind>(
  tx: EntityManager,
  kind: Kind,
  key: { studioId: string; id: string },
): Promise<Place<Kind> | null> {
  return (await tx.findOneBy<Site | Room | Bench>(places[kind], key)) as Place<Kind> | null;
}

export async function listPlaces<Kind extends PlaceKind>(
  tx: EntityManager,
  kind: Kind,
  { studioId, after, limit }: { studioId: string; after: string | null; limit: number },
): Promise<Place<Kind>[]> {
  const rows = await tx.find<Site | Room | Bench>(places[kind], {
    where: { studioId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
  return rows as Place<Kind>[];
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updatePlace(
  tx: EntityManager,
  kind: PlaceKind,
  key: { studioId: string; id: string; version: number },
  fields: PlaceFields,
): Promise<boolean> {
  const { affected } = await tx.update(places[kind], key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export async function timeZoneOfStudio(tx: EntityManager, studioId: string): Promise<string> {
  return (await tx.findOneByOrFail(Studio, { id: studioId })).timeZone;
}
