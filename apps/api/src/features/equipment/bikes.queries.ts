import { Bike, BikePart, sameClientIds, utcText, type BikePartKind, type SqlRunner } from '@studio/database';
import { In, IsNull, type EntityManager } from 'typeorm';
import type { BikeResponse, FittedPartResponse } from './bikes.dto.js';

export interface OfClient {
  studioId: string;
  clientId: string;
}

const partColumns = `'id', p.id, 'kind', p.kind, 'description', p.description, 'facts', p.facts,
  'validFrom', ${utcText('p.valid_from')}, 'validTo', ${utcText('p.valid_to')}, 'fittedBy', p.fitted_by,
  'removedBy', p.removed_by`;

const bikes = `SELECT b.id, b.name, b.kind, b.crank_length_mm AS "crankLengthMm",
    b.seat_tube_angle_deg AS "seatTubeAngleDeg",
    CASE WHEN b.stack_mm IS NOT NULL THEN json_build_object(
      'stackMm', b.stack_mm, 'reachMm', b.reach_mm, 'headTubeAngleDeg', b.head_tube_angle_deg) END AS frame,
    b.contact_points AS "contactPoints", b.uses, b.version, ${utcText('b.archived_at')} AS "archivedAt",
    coalesce((SELECT json_agg(json_build_object(${partColumns}) ORDER BY p.kind)
                FROM bike_parts p
               WHERE p.studio_id = b.studio_id AND p.bike_id = b.id AND p.valid_to IS NULL), '[]') AS parts
  FROM bikes b WHERE b.studio_id = $1 AND b.client_id IN (SELECT * FROM app_same_client($1, $2))`;

export function listBikes(sql: SqlRunner, key: OfClient): Promise<BikeResponse[]> {
  return sql.query<BikeResponse[]>(`${bikes} ORDER BY b.id`, [key.studioId, key.clientId]);
}

export async function findBikeResponse(
  sql: SqlRunner,
  key: OfClient & { id: string },
): Promise<BikeResponse | null> {
  const rows = await sql.query<BikeResponse[]>(`${bikes} AND b.id = $3`, [
    key.studioId,
    key.clientId,
    key.id,
  ]);
  return rows[0] ?? null;
}

/** Of whichever record of the person. */
export async function findBike(tx: EntityManager, key: OfClient & { id: string }): Promise<Bike | null> {
  const clientId = In(await sameClientIds(tx, key));
  return tx.findOneBy(Bike, { studioId: key.studioId, clientId, id: key.id });
}

type BikeFields = Partial<Omit<Bike, keyof OfClient | 'id' | 'version' | 'createdAt'>>;

export async function insertBike(tx: EntityManager, row: OfClient & BikeFields): Promise<string> {
  const { identifiers } = await tx.insert(Bike, row);
  return (identifiers[0] as { id: string }).id;
}

/** Changes the bike only while it has the version the change was made from; tells whether it did. */
export async function updateBike(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  fields: BikeFields,
): Promise<boolean> {
  const { affected } = await tx.update(Bike, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export function findPartInUse(
  tx: EntityManager,
  of: { studioId: string; bikeId: string; kind: BikePartKind },
): Promise<BikePart | null> {
  return tx.findOneBy(BikePart, { ...of, validTo: IsNull() });
}

export async function insertPart(
  tx: EntityManager,
  row: Pick<BikePart, 'studioId' | 'bikeId' | 'kind' | 'description' | 'facts' | 'validFrom' | 'fittedBy'>,
): Promise<void> {
  await tx.insert(BikePart, row);
}

export async function removePart(
  tx: EntityManager,
  key: { studioId: string; id: string },
  removal: { validTo: Date; removedBy: string },
): Promise<void> {
  await tx.update(BikePart, key, removal);
}

/** In use and before, oldest first. */
export async function listParts(
  sql: SqlRunner,
  page: { studioId: string; bikeId: string; after: string | null; limit: number },
): Promise<FittedPartResponse[]> {
  const rows = await sql.query<{ part: FittedPartResponse }[]>(
    `SELECT json_build_object(${partColumns}) AS part FROM bike_parts p
      WHERE p.studio_id = $1 AND p.bike_id = $2 AND ($3::uuid IS NULL OR p.id > $3) ORDER BY p.id LIMIT $4`,
    [page.studioId, page.bikeId, page.after, page.limit],
  );
  return rows.map(({ part }) => part);
}

/** Of a bike whose version the caller has just raised. */
export async function setBike(
  tx: EntityManager,
  key: { studioId: string; id: string },
  fields: BikeFields,
): Promise<void> {
  await tx.update(Bike, key, fields);
}
