import { HoursExceptionRow, WeeklyHoursRow, type SqlRunner } from '@studio/database';
import { MoreThan, type EntityManager, type FindOptionsWhere } from 'typeorm';

export const tables = { weekly: WeeklyHoursRow, exception: HoursExceptionRow } as const;
export type HoursKind = keyof typeof tables;
type Row<Kind extends HoursKind> = InstanceType<(typeof tables)[Kind]>;
interface Key {
  studioId: string;
  id: string;
}

export async function insertHours<Kind extends HoursKind>(
  tx: EntityManager,
  kind: Kind,
  row: Partial<Row<Kind>>,
): Promise<string> {
  const { identifiers } = await tx.insert<WeeklyHoursRow | HoursExceptionRow>(tables[kind], row);
  return (identifiers[0] as { id: string }).id;
}

export async function findHours<Kind extends HoursKind>(
  tx: EntityManager,
  kind: Kind,
  key: Key,
): Promise<Row<Kind> | null> {
  return (await tx.findOneBy<WeeklyHoursRow | HoursExceptionRow>(tables[kind], key)) as Row<Kind> | null;
}

export async function listHours<Kind extends HoursKind>(
  tx: EntityManager,
  kind: Kind,
  page: {
    studioId: string;
    owner: { staffId?: string; roomId?: string; siteId?: string };
    after?: string;
    limit: number;
  },
): Promise<Row<Kind>[]> {
  const { studioId, owner, after, limit } = page;
  const where: FindOptionsWhere<WeeklyHoursRow | HoursExceptionRow> = {
    studioId,
    ...owner,
    ...(after !== undefined && { id: MoreThan(after) }),
  };
  const rows = await tx.find<WeeklyHoursRow | HoursExceptionRow>(tables[kind], {
    where,
    order: { id: 'ASC' },
    take: limit,
  });
  return rows as Row<Kind>[];
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateHours<Kind extends HoursKind>(
  tx: EntityManager,
  kind: Kind,
  key: Key & { version: number },
  fields: Partial<Row<Kind>>,
): Promise<boolean> {
  const { affected } = await tx.update<WeeklyHoursRow | HoursExceptionRow>(tables[kind], key, {
    ...fields,
    version: key.version + 1,
  });
  return affected === 1;
}

export async function deleteHours(
  tx: EntityManager,
  kind: HoursKind,
  key: Key & { version: number },
): Promise<boolean> {
  const { affected } = await tx.delete<WeeklyHoursRow | HoursExceptionRow>(tables[kind], key);
  return affected === 1;
}

export async function timeZoneAt(
  sql: SqlRunner,
  key: { studioId: string; siteId: string | null },
): Promise<string | null> {
  const rows = await sql.query<{ timeZone: string }[]>(
    `SELECT coalesce(sites.time_zone, studios.time_zone) AS "timeZone"
       FROM studios LEFT JOIN sites ON sites.studio_id = studios.id AND sites.id = $2
      WHERE studios.id = $1 AND ($2::uuid IS NULL OR sites.id IS NOT NULL)`,
    [key.studioId, key.siteId],
  );
  return rows[0]?.timeZone ?? null;
}

export async function siteOfRoom(
  sql: SqlRunner,
  key: { studioId: string; roomId: string },
): Promise<{ siteId: string | null } | null> {
  const rows = await sql.query<{ siteId: string | null }[]>(
    `SELECT site_id AS "siteId" FROM rooms WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.roomId],
  );
  return rows[0] ?? null;
}

export async function isStaff(sql: SqlRunner, key: { studioId: string; staffId: string }): Promise<boolean> {
  const rows = await sql.query<unknown[]>(`SELECT 1 FROM users WHERE studio_id = $1 AND id = $2`, [
    key.studioId,
    key.staffId,
  ]);
  return rows.length === 1;
}
