import type { HoursExceptionRow, SqlRunner, WeeklyHoursRow } from '@studio/database';

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
