import {
  intersection,
  openDuring,
  type CalendarDay,
  type Hours,
  type IntervalSet,
} from '@studio/opening-hours';
import type { SqlRunner } from '@studio/database';
import {
  allWeeklyHours,
  exceptionsDuring,
  type ExceptionFacts,
  type WeeklyFacts,
} from './studio-hours.queries.js';

/** The recorded hours of a studio in a stretch of days, asked by whose they are and at which site. */
export class StudioHours {
  private constructor(
    private readonly weekly: readonly WeeklyFacts[],
    private readonly exceptions: readonly ExceptionFacts[],
  ) {}

  static async read(
    sql: SqlRunner,
    range: { studioId: string; firstDay: string; lastDay: string },
  ): Promise<StudioHours> {
    const [weekly, exceptions] = await Promise.all([
      allWeeklyHours(sql, range.studioId),
      exceptionsDuring(sql, range),
    ]);
    return new StudioHours(weekly, exceptions);
  }

  /** @param days of the site, by its clock */
  site(siteId: string | null, days: readonly CalendarDay[]): IntervalSet {
    const studio = this.own(({ staffId, roomId, siteId: id }) => (staffId ?? roomId ?? id) === null, days);
    return siteId === null
      ? studio
      : intersection(
          studio,
          this.own((row) => row.siteId === siteId, days),
        );
  }

  /** The room's own hours, without those of its site. */
  room(roomId: string, days: readonly CalendarDay[]): IntervalSet {
    return this.own((row) => row.roomId === roomId, days);
  }

  /** When the person works at the site, by that site's clock; without the hours of the site. */
  person(staffId: string, siteId: string | null, days: readonly CalendarDay[]): IntervalSet {
    const hours = this.of((row) => row.staffId === staffId);
    const weekly = hours.weekly?.filter(({ atSiteId }) => atSiteId === null || atSiteId === siteId) ?? null;
    return openDuring({ ...hours, weekly }, days);
  }

  private own(
    isTheirs: (row: WeeklyFacts | ExceptionFacts) => boolean,
    days: readonly CalendarDay[],
  ): IntervalSet {
    return openDuring(this.of(isTheirs), days);
  }

  private of(
    isTheirs: (row: WeeklyFacts | ExceptionFacts) => boolean,
  ): Omit<Hours, 'weekly'> & { weekly: WeeklyFacts[] | null } {
    const weekly = this.weekly.filter(isTheirs);
    return {
      weekly: weekly.length > 0 ? weekly : null,
      exceptions: this.exceptions.filter(isTheirs).map(({ fromMinutes, untilMinutes, ...rest }) => ({
        ...rest,
        span: fromMinutes === null || untilMinutes === null ? null : { fromMinutes, untilMinutes },
      })),
    };
  }
}
