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

export async function updateWeeklyHours(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Partial<WeeklyHoursRow>,
): Promise<boolean> {
  const { affected } = await tx.update(WeeklyHoursRow, key, { ...fields, version: key.version + 1 });
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

type Owned = Pick<WeeklyHoursRow, 'staffId' | 'roomId' | 'siteId'>;
export type WeeklyFacts = Owned &
  Pick<
    WeeklyHoursRow,
    'atSiteId' | 'weekdays' | 'fromMinutes' | 'untilMinutes' | 'breaks' | 'validFrom' | 'validUntil'
  >;
export type ExceptionFacts = Owned &
  Pick<HoursExceptionRow, 'kind' | 'firstDay' | 'lastDay' | 'fromMinutes' | 'untilMinutes'>;

const owned = `staff_id AS "staffId", room_id AS "roomId", site_id AS "siteId",
  from_minutes AS "fromMinutes", until_minutes AS "untilMinutes"`;

/** Every week's hours of the studio: whether any were ever recorded matters too. */
export function allWeeklyHours(sql: SqlRunner, studioId: string): Promise<WeeklyFacts[]> {
  return sql.query<WeeklyFacts[]>(
    `SELECT ${owned}, at_site_id AS "atSiteId", weekdays, breaks,
            to_char(valid_from, 'YYYY-MM-DD') AS "validFrom", to_char(valid_until, 'YYYY-MM-DD') AS "validUntil"
       FROM weekly_hours WHERE studio_id = $1`,
    [studioId],
  );
}

export function exceptionsDuring(
  sql: SqlRunner,
  range: { studioId: string; firstDay: string; lastDay: string },
): Promise<ExceptionFacts[]> {
  return sql.query<ExceptionFacts[]>(
    `SELECT ${owned}, kind,
            to_char(first_day, 'YYYY-MM-DD') AS "firstDay", to_char(last_day, 'YYYY-MM-DD') AS "lastDay"
       FROM hours_exceptions WHERE studio_id = $1 AND last_day >= $2 AND first_day <= $3`,
    [range.studioId, range.firstDay, range.lastDay],
  );
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
