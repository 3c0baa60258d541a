import type { SqlRunner } from '@studio/database';
import {
  calendarDays,
  dayAt,
  difference,
  intersection,
  union,
  type CalendarDay,
  type Interval,
  type IntervalSet,
  type Resource,
} from '@studio/opening-hours';
import type { TakenTime } from './availability.queries.js';
import { StudioHours } from './studio-hours.js';

const dayMs = 86_400_000;

/** The days of a place that a stretch reaches into. */
export function daysAround(timeZone: string, { start, end }: Interval): CalendarDay[] {
  return calendarDays(timeZone, dayAt(start, timeZone), dayAt(end, timeZone));
}

/** The studio's hours on every day any of its places has in the stretch: no two places are two days apart. */
export function hoursAround(
  sql: SqlRunner,
  studioId: string,
  { start, end }: Interval,
): Promise<StudioHours> {
  return StudioHours.read(sql, {
    studioId,
    firstDay: dayAt(start - dayMs, 'UTC'),
    lastDay: dayAt(end + dayMs, 'UTC'),
  });
}

/** When a person works, and a room is open, at a place; what is booked left out of account. */
export function openAt(
  hours: StudioHours,
  place: { siteId: string | null; days: readonly CalendarDay[] },
): { fitter: (id: string) => IntervalSet; room: (id: string) => IntervalSet } {
  const { siteId, days } = place;
  const site = hours.site(siteId, days);
  return {
    fitter: (id) => intersection(site, hours.person(id, siteId, days)),
    room: (id) => intersection(site, hours.room(id, days)),
  };
}

/** What is taken of whom, by the id of fitter, room or bench. */
export class Taken {
  private readonly sets: ReadonlyMap<string, IntervalSet>;

  constructor(rows: readonly TakenTime[]) {
    const lists = new Map<string, Interval[]>();
    for (const { fitterId, roomId, benchId, spans } of rows) {
      const intervals = spans.map(([from, until]) => ({
        start: Math.round(from * 1000),
        end: Math.round(until * 1000),
      }));
      for (const id of [fitterId, roomId, benchId]) {
        if (id !== null) lists.set(id, [...(lists.get(id) ?? []), ...intervals]);
      }
    }
    this.sets = new Map([...lists].map(([id, list]) => [id, union(list)]));
  }

  without(id: string, open: IntervalSet): Resource {
    const taken = this.sets.get(id);
    return { id, free: taken ? difference(open, taken) : open };
  }
}
