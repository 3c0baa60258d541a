import type { SqlRunner } from '@studio/database';
import { dayAt, localTimeOn, slots, type Interval } from '@studio/opening-hours';
import * as queries from './availability.queries.js';
import { daysAround, hoursAround, openAt, Taken } from './free-time.js';
import { bookableFrom, visitTime } from './visit-time.js';

export interface Wish {
  readonly studioId: string;
  readonly offer: queries.Offer;
  readonly fitterId: string | null;
  readonly roomId: string | null;
  readonly siteId: string | null;
  readonly stepMinutes: number;
  /** Both included, by the clock of each place. */
  readonly firstDay: string;
  readonly lastDay: string;
}

/** A start the service may have, by the clock of its place, and who and what is free then. */
export interface FreeSlot {
  readonly startsAt: string;
  readonly endsAt: string;
  /** RFC 9557. */
  readonly localStart: string;
  readonly siteId: string | null;
  /** Any of the fitters goes with any of the rooms and any of the benches. */
  readonly fitterIds: readonly string[];
  readonly roomIds: readonly string[];
  /** Empty when nothing cures. */
  readonly benchIds: readonly string[];
}

const dayMs = 86_400_000;

/** Every start the service may have in the days, in order. */
export async function findSlots(sql: SqlRunner, wish: Wish): Promise<FreeSlot[]> {
  const { studioId, offer } = wish;
  const visit = visitTime(offer);
  // The days as the first place on earth to have them and the last, with what a visit takes around its start.
  const stretch: Interval = {
    start: Date.parse(wish.firstDay) - dayMs - visit.bufferBeforeMs,
    end: Date.parse(wish.lastDay) + 2 * dayMs + visit.durationMs + visit.bufferAfterMs + visit.curingMs,
  };
  const [fitterIds, rooms, benches, hours, takenRows] = await Promise.all([
    queries.suitableFitters(sql, { studioId, skills: offer.requiredSkills, fitterId: wish.fitterId }),
    queries.suitableRooms(sql, { ...wish, equipment: offer.requiredEquipment }),
    offer.curingMinutes > 0 ? queries.listBenches(sql, studioId) : [],
    hoursAround(sql, studioId, stretch),
    queries.takenDuring(sql, {
      studioId,
      from: new Date(stretch.start).toISOString(),
      to: new Date(stretch.end).toISOString(),
    }),
  ]);
  const taken = new Taken(takenRows);
  const bookable = bookableFrom(offer);

  const found = [...new Set(rooms.map(({ siteId }) => siteId))].flatMap((siteId) => {
    const here = rooms.filter((room) => room.siteId === siteId);
    const timeZone = here[0]?.timeZone ?? 'UTC';
    const days = daysAround(timeZone, stretch);
    const open = openAt(hours, { siteId, days });
    const asked = days.filter(({ day }) => wish.firstDay <= day && day <= wish.lastDay);
    const first = asked[0];
    const last = asked.at(-1);
    if (!first || !last) return [];
    const within = {
      start: Math.max(first.start, bookable.start),
      end: Math.min(last.end, bookable.end),
    };
    const starts = slots(
      visit,
      {
        fitters: fitterIds.map((id) => taken.without(id, open.fitter(id))),
        rooms: here.map(({ id }) => taken.without(id, open.room(id))),
        benches: benches
          .filter((bench) => bench.siteId === siteId)
          .map(({ id }) => taken.without(id, [stretch])),
      },
      {
        within: within.start < within.end ? [within] : [],
        days: asked,
        stepMinutes: wish.stepMinutes,
      },
    );
    return starts.map(({ start, ...ids }) => ({
      startsAt: new Date(start).toISOString(),
      endsAt: new Date(start + visit.durationMs).toISOString(),
      localStart: localTimeOn(asked, start, timeZone),
      siteId,
      ...ids,
    }));
  });
  return found.sort((a, b) => (a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : 0));
}

export const dayOf = ({ localStart }: FreeSlot): string => localStart.slice(0, 10);

export const today = (nowMs: number): string => dayAt(nowMs - dayMs, 'UTC');
