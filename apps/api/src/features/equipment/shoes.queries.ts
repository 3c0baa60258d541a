import { Shoe, ShoeHardware, sameClientIds, utcText, type SqlRunner } from '@studio/database';
import { In, IsNull, type EntityManager } from 'typeorm';
import type { OfClient } from './bikes.queries.js';
import type { HardwareResponse, ShoeResponse } from './shoes.dto.js';

const hardwareColumns = `'id', h.id, 'side', h.side, 'kind', h.kind, 'note', h.note,
  'validFrom', ${utcText('h.valid_from')}, 'validTo', ${utcText('h.valid_to')}, 'fittedBy', h.fitted_by,
  'removedBy', h.removed_by`;

const shoes = `SELECT s.id, s.name, s.outer_length_mm AS "outerLengthMm", s.hole_pattern AS "holePattern",
    s.slot_front_from_heel_mm AS "slotFrontFromHeelMm", s.slot_rear_from_heel_mm AS "slotRearFromHeelMm",
    s.arch_channel AS "archChannel",
    CASE WHEN s.size IS NOT NULL THEN json_build_object('system', s.size_system, 'size', s.size) END AS "markedSize",
    s.foot_length_mm AS "footLengthMm", s.bolt_line_from_heel_mm AS "boltLineFromHeelMm",
    s.sole_curve AS "soleCurve", s.sole_material AS "soleMaterial", s.version,
    ${utcText('s.archived_at')} AS "archivedAt",
    coalesce((SELECT json_agg(json_build_object(${hardwareColumns}) ORDER BY h.side, h.id)
                FROM shoe_hardware h
               WHERE h.studio_id = s.studio_id AND h.shoe_id = s.id AND h.valid_to IS NULL), '[]') AS hardware
  FROM shoes s WHERE s.studio_id = $1 AND s.client_id IN (SELECT * FROM app_same_client($1, $2))`;

type ShoeRow = Omit<ShoeResponse, 'sizes'>;

export function listShoes(sql: SqlRunner, key: OfClient): Promise<ShoeRow[]> {
  return sql.query<ShoeRow[]>(`${shoes} ORDER BY s.id`, [key.studioId, key.clientId]);
}

export async function findShoeResponse(
  sql: SqlRunner,
  key: OfClient & { id: string },
): Promise<ShoeRow | null> {
  const rows = await sql.query<ShoeRow[]>(`${shoes} AND s.id = $3`, [key.studioId, key.clientId, key.id]);
  return rows[0] ?? null;
}

/** Of whichever record of the person. */
export async function findShoe(tx: EntityManager, key: OfClient & { id: string }): Promise<Shoe | null> {
  const clientId = In(await sameClientIds(tx, key));
  return tx.findOneBy(Shoe, { studioId: key.studioId, clientId, id: key.id });
}

type ShoeFields = Partial<Omit<Shoe, keyof OfClient | 'id' | 'version' | 'createdAt'>>;

export async function insertShoe(tx: EntityManager, row: OfClient & ShoeFields): Promise<string> {
  const { identifiers } = await tx.insert(Shoe, row);
  return (identifiers[0] as { id: string }).id;
}

/** Changes the pair only while it has the version the change was made from; tells whether it did. */
export async function updateShoe(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  fields: ShoeFields,
): Promise<boolean> {
  const { affected } = await tx.update(Shoe, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export function findMounted(
  tx: EntityManager,
  of: { studioId: string; shoeId: string } & Partial<Pick<ShoeHardware, 'id' | 'side' | 'kind'>>,
): Promise<ShoeHardware | null> {
  return tx.findOneBy(ShoeHardware, { ...of, validTo: IsNull() });
}

export async function insertHardware(
  tx: EntityManager,
  row: Pick<ShoeHardware, 'studioId' | 'shoeId' | 'side' | 'kind' | 'note' | 'validFrom' | 'fittedBy'>,
): Promise<void> {
  await tx.insert(ShoeHardware, row);
}

export async function removeHardware(
  tx: EntityManager,
  key: { studioId: string; id: string },
  removal: { validTo: Date; removedBy: string },
): Promise<void> {
  await tx.update(ShoeHardware, key, removal);
}

/** Mounted and before, oldest first. */
export async function listHardware(
  sql: SqlRunner,
  page: { studioId: string; shoeId: string; after: string | null; limit: number },
): Promise<HardwareResponse[]> {
  const rows = await sql.query<{ part: HardwareResponse }[]>(
    `SELECT json_build_object(${hardwareColumns}) AS part FROM shoe_hardware h
      WHERE h.studio_id = $1 AND h.shoe_id = $2 AND ($3::uuid IS NULL OR h.id > $3) ORDER BY h.id LIMIT $4`,
    [page.studioId, page.shoeId, page.after, page.limit],
  );
  return rows.map(({ part }) => part);
}
