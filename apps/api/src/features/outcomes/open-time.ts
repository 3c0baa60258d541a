import { calendarDays, intersection, union, type Interval, type IntervalSet } from '@studio/opening-hours';
import type { StudioHours } from '@studio/availability';
import type { RoomPlace } from './workload.queries.js';

const hourMs = 3_600_000;

/** Hours that fitters and rooms are open by the plan in a period, days of 23 and 25 hours counted as they are. */
export class OpenTime {
  private readonly places: readonly Pick<RoomPlace, 'siteId' | 'timeZone'>[];

  constructor(
    private readonly hours: StudioHours,
    private readonly period: Interval & { firstDay: string; lastDay: string },
    rooms: readonly RoomPlace[],
  ) {
    this.places = [...new Map(rooms.map((room) => [room.siteId, room])).values()];
  }

  /** @returns null where nothing limits the time: no hours are recorded */
  ofFitter(id: string): number | null {
    return this.told(
      union(
        this.places.flatMap((place) => this.at(place, (days) => this.hours.person(id, place.siteId, days))),
      ),
    );
  }

  /** @returns null where nothing limits the time: no hours are recorded */
  ofRoom(room: RoomPlace): number | null {
    return this.told(this.at(room, (days) => this.hours.room(room.id, days)));
  }

  private at(
    { siteId, timeZone }: Pick<RoomPlace, 'siteId' | 'timeZone'>,
    own: (days: ReturnType<typeof calendarDays>) => IntervalSet,
  ): IntervalSet {
    const days = calendarDays(timeZone, this.period.firstDay, this.period.lastDay);
    return intersection(intersection(this.hours.site(siteId, days), own(days)), [this.period]);
  }

  private told(open: IntervalSet): number | null {
    const openMs = open.reduce((sum, { start, end }) => sum + end - start, 0);
    return openMs === this.period.end - this.period.start ? null : openMs / hourMs;
  }
}
