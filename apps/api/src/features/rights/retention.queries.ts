import { RetentionChoice, User } from '@studio/database';
import { ArrayContains, IsNull, type EntityManager } from 'typeorm';

export function findChoice(tx: EntityManager, studioId: string): Promise<RetentionChoice | null> {
  return tx.findOneBy(RetentionChoice, { studioId });
}

/** The first choice is made from version 1; tells whether it had the version the change was made from. */
export async function putChoice(
  tx: EntityManager,
  row: Pick<RetentionChoice, 'studioId' | 'country' | 'boundByHealthLaw' | 'version'>,
): Promise<boolean> {
  const rows = await tx.query<unknown[]>(
    `INSERT INTO retention_choices AS chosen (studio_id, country, bound_by_health_law, version)
     SELECT $1::uuid, $2::text, $3::boolean, 2 WHERE $4::integer = 1 OR EXISTS (SELECT FROM retention_choices WHERE studio_id = $1)
         ON CONFLICT ON CONSTRAINT retention_choices_one DO UPDATE
           SET country = excluded.country, bound_by_health_law = excluded.bound_by_health_law,
               version = chosen.version + 1
         WHERE chosen.version = $4
     RETURNING id`,
    [row.studioId, row.country, row.boundByHealthLaw, row.version],
  );
  return rows.length === 1;
}

export function listOwners(tx: EntityManager, studioId: string): Promise<User[]> {
  return tx.find(User, {
    where: { studioId, roles: ArrayContains(['owner']), disabledAt: IsNull() },
    order: { id: 'ASC' },
  });
}
