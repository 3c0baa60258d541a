import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { calendarDays, clockInstant, dayAt, localTime, localTimeOn } from './calendar-days.js';
import { difference, union, type Interval, type IntervalSet } from './interval-set.js';
import { openDuring, type Hours } from './opening-hours.js';
import { mayBegin, slots } from './slots.js';

const minute = 60_000;

/** Stretches of three days with a change of the clock in the middle, north and south, by an hour and by half of one. */
const changes = [
  ['Europe/Copenhagen', '2026-03-28', 23],
  ['Europe/Copenhagen', '2026-10-24', 25],
  ['America/New_York', '2026-03-07', 23],
  ['America/New_York', '2026-10-31', 25],
  ['Pacific/Auckland', '2026-09-26', 23],
  ['Pacific/Auckland', '2026-04-04', 25],
  ['Australia/Lord_Howe', '2026-10-03', 23.5],
  ['Australia/Lord_Howe', '2026-04-04', 24.5],
  // Here the clock is changed at midnight: the day begins at one, and the day before it has 25 hours.
  ['America/Santiago', '2026-09-05', 23],
  ['America/Santiago', '2026-04-03', 25],
] as const;

/** What the clock showed in every minute of the stretch, by the platform's own formatter. */
function wallClock(timeZone: string, start: number, end: number): { day: string; minutes: number }[] {
  const format = new Intl.DateTimeFormat('en-CA', {
    ...{ timeZone, hourCycle: 'h23', year: 'numeric', month: '2-digit', day: '2-digit' },
    ...{ hour: '2-digit', minute: '2-digit' },
  });
  return Array.from({ length: (end - start) / minute }, (_, index) => {
    const parts = Object.fromEntries(
      format.formatToParts(start + index * minute).map(({ type, value }) => [type, value]),
    );
    return {
      day: `${parts['year']}-${parts['month']}-${parts['day']}`,
      minutes: Number(parts['hour']) * 60 + Number(parts['minute']),
    };
  });
}

function stretch(timeZone: string, firstDay: string) {
  const next = (day: string, by: number) =>
    new Date(Date.parse(`${day}T00:00Z`) + by * 86_400_000).toISOString().slice(0, 10);
  const days = calendarDays(timeZone, firstDay, next(firstDay, 2));
  const start = days[0]?.start ?? NaN;
  const end = days.at(-1)?.end ?? NaN;
  const clock = wallClock(timeZone, start, end);
  const known = new Map<string, number>();
  /** The first minute that shows at least this time of this day. */
  const indexOf = (on: string, minutes: number): number => {
    const key = `${on} ${minutes}`;
    let index = known.get(key);
    if (index === undefined) {
      index = clock.findIndex((shown) => shown.day > on || (shown.day === on && shown.minutes >= minutes));
      if (index < 0) index = clock.length;
      known.set(key, index);
    }
    return index;
  };
  return { timeZone, days, start, end, clock, indexOf };
}
const stretches = changes.map(([timeZone, firstDay]) => stretch(timeZone, firstDay));

describe.each(changes)('%s from %s', (timeZone, firstDay, hours) => {
  const { days, start, end, clock } = stretch(timeZone, firstDay);

  it('has its changed day, with the length it has', () => {
    const lengths = days.map((day) => (day.end - day.start) / 3_600_000);
    expect(lengths.filter((length) => length !== 24)).toEqual([hours]);
  });

  it('knows the first instant at which the clock shows a time', () => {
    for (const day of days) {
      for (let minutes = 0; minutes <= 1440; minutes += 15) {
        const index = clock.findIndex(
          (shown) => shown.day > day.day || (shown.day === day.day && shown.minutes >= minutes),
        );
        const first = index < 0 ? end : start + index * minute;
        expect([day.day, minutes, clockInstant(day, minutes)]).toEqual([day.day, minutes, first]);
      }
    }
  });

  it('tells day and local time of every half hour', () => {
    for (let index = 0; index < clock.length; index += 30) {
      const at = start + index * minute;
      const shown = clock[index] ?? { day: '', minutes: NaN };
      expect(dayAt(at, timeZone)).toBe(shown.day);
      const text = localTime(at, timeZone);
      expect(text.slice(0, 10)).toBe(shown.day);
      expect(localTimeOn(days, at, timeZone)).toBe(text);
      expect(Number(text.slice(11, 13)) * 60 + Number(text.slice(14, 16))).toBe(shown.minutes);
      expect(Date.parse(text.replace(/\[.*/, ''))).toBe(at);
      expect(text.endsWith(`[${timeZone}]`)).toBe(true);
    }
  });
});

const span = fc
  .tuple(fc.integer({ min: 0, max: 96 }), fc.integer({ min: 0, max: 96 }))
  .map(([a, b]) => ({ fromMinutes: Math.min(a, b) * 15, untilMinutes: Math.max(a, b) * 15 }));

const hoursIn = (days: readonly string[]): fc.Arbitrary<Hours> => {
  const day = fc.constantFrom(...days);
  const weekly = fc.record({
    weekdays: fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 4 }),
    fromMinutes: fc.constantFrom(0, 60, 120, 480),
    untilMinutes: fc.constantFrom(150, 600, 1020, 1440),
    breaks: fc.array(span, { maxLength: 2 }),
    validFrom: day,
    validUntil: fc.option(day),
  });
  const exception = fc.record({
    kind: fc.constantFrom('open' as const, 'closed' as const),
    firstDay: day,
    lastDay: day,
    span: fc.option(span),
  });
  return fc.record({
    weekly: fc.option(fc.array(weekly, { maxLength: 3 })),
    exceptions: fc.array(exception, { maxLength: 2 }),
  });
};

/** Minute by minute: open from the first minute that shows at least the one time to the first that shows the other. */
function openMinutes(hours: Hours, { clock, indexOf }: (typeof stretches)[number]): boolean[] {
  return clock.map(({ day }, index) => {
    const weekday = ((new Date(`${day}T00:00Z`).getUTCDay() + 6) % 7) + 1;
    const inside = (part: { fromMinutes: number; untilMinutes: number } | null) =>
      part === null || (indexOf(day, part.fromMinutes) <= index && index < indexOf(day, part.untilMinutes));
    const today = hours.exceptions.filter(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay);
    // Other hours that the clock skips, or of no length, are no hours.
    const other = today.filter((item) => item.kind === 'open');
    const usual =
      hours.weekly === null ||
      hours.weekly.some(
        (item) =>
          item.weekdays.includes(weekday) &&
          item.validFrom <= day &&
          (item.validUntil === null || day <= item.validUntil) &&
          inside(item) &&
          !item.breaks.some((pause) => inside(pause)),
      );
    const open = other.length > 0 ? other.some((item) => inside(item.span)) : usual;
    return open && !today.some((item) => item.kind === 'closed' && inside(item.span));
  });
}

const minutesOf = (set: IntervalSet, { clock, start }: (typeof stretches)[number]): boolean[] => {
  const open = clock.map(() => false);
  for (const interval of set)
    for (let at = interval.start; at < interval.end; at += minute) open[(at - start) / minute] = true;
  return open;
};

const anyStretch = fc.constantFrom(...stretches);

describe('opening hours', () => {
  it('are those a minute-by-minute look at the clock finds', () => {
    fc.assert(
      fc.property(
        anyStretch.chain((at) => fc.tuple(fc.constant(at), hoursIn(at.days.map(({ day }) => day)))),
        ([at, hours]) => {
          const drawn = (open: boolean[]) => open.map((is) => (is ? '#' : '.')).join('');
          expect(drawn(minutesOf(openDuring(hours, at.days), at))).toBe(drawn(openMinutes(hours, at)));
        },
      ),
      { numRuns: 120 },
    );
  });
});

describe('slots', () => {
  const taken = fc.array(fc.tuple(fc.integer({ min: 0, max: 4300 }), fc.integer({ min: 5, max: 700 })), {
    maxLength: 6,
  });
  const scene = anyStretch.chain((at) =>
    fc.record({
      at: fc.constant(at),
      visit: fc.record({
        durationMs: fc.integer({ min: 1, max: 16 }).map((n) => n * 15 * minute),
        bufferBeforeMs: fc.constantFrom(0, 5, 10, 20).map((n) => n * minute),
        bufferAfterMs: fc.constantFrom(0, 5, 15).map((n) => n * minute),
        curingMs: fc.constantFrom(0, 0, 60, 720).map((n) => n * minute),
      }),
      fitters: fc.array(fc.tuple(hoursIn(at.days.map(({ day }) => day)), taken), { maxLength: 3 }),
      rooms: fc.array(fc.tuple(hoursIn(at.days.map(({ day }) => day)), taken), { maxLength: 3 }),
      benches: fc.array(taken, { maxLength: 2 }),
      stepMinutes: fc.constantFrom(5, 15, 20, 30, 60),
      within: fc.tuple(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 2000, max: 4200 })),
    }),
  );

  it('are exactly those that trying every minute with every fitter, room and bench finds', () => {
    let offered = 0;
    fc.assert(
      fc.property(scene, ({ at, visit, fitters, rooms, benches, stepMinutes, within }) => {
        const busy = (list: [number, number][]): IntervalSet =>
          union(
            list.map(([from, length]): Interval => ({
              start: at.start + from * minute,
              end: at.start + (from + length) * minute,
            })),
          );
        const free = ([hours, list]: [Hours, [number, number][]]): IntervalSet =>
          difference(openDuring(hours, at.days), busy(list));
        const named = (sets: IntervalSet[], letter: string) =>
          sets.map((set, index) => ({ id: `${letter}${index}`, free: set }));
        const resources = {
          fitters: named(fitters.map(free), 'f'),
          rooms: named(rooms.map(free), 'r'),
          benches: named(
            benches.map((list) => difference([{ start: at.start, end: at.end }], busy(list))),
            'b',
          ),
        };
        const window = { start: at.start + within[0] * minute, end: at.start + within[1] * minute };
        const found = slots(visit, resources, { within: [window], days: at.days, stepMinutes });

        const everywhere = (set: boolean[], from: number, length: number) =>
          from >= 0 && from + length <= set.length && set.slice(from, from + length).every(Boolean);
        const bits = (list: { id: string; free: IntervalSet }[]) =>
          list.map(({ id, free: set }) => ({ id, set: minutesOf(set, at) }));
        const [f, r, b] = [bits(resources.fitters), bits(resources.rooms), bits(resources.benches)];
        const wanted = at.clock.flatMap(({ minutes }, index) => {
          const start = at.start + index * minute;
          if ((minutes % 60) % stepMinutes !== 0 || start < window.start || start >= window.end) return [];
          const first = index - visit.bufferBeforeMs / minute;
          const whole = (visit.bufferBeforeMs + visit.durationMs + visit.bufferAfterMs) / minute;
          const after = index + visit.durationMs / minute;
          const ids = (list: typeof f, from: number, length: number) =>
            list.filter(({ set }) => everywhere(set, from, length)).map(({ id }) => id);
          const [fitterIds, roomIds] = [ids(f, first, whole), ids(r, first, whole)];
          const benchIds = visit.curingMs > 0 ? ids(b, after, visit.curingMs / minute) : [];
          const possible =
            fitterIds.length > 0 && roomIds.length > 0 && (visit.curingMs === 0 || benchIds.length > 0);
          return possible ? [{ start, fitterIds, roomIds, benchIds }] : [];
        });
        expect(found).toEqual(wanted);
        offered += found.length;

        for (const { start, fitterIds, roomIds, benchIds } of found) {
          const freeOf = (list: { id: string; free: IntervalSet }[], id: string | undefined) =>
            list.find((item) => item.id === id)?.free;
          expect(
            mayBegin(visit, start, {
              fitter: freeOf(resources.fitters, fitterIds[0]) ?? [],
              room: freeOf(resources.rooms, roomIds[0]) ?? [],
              bench: freeOf(resources.benches, benchIds[0]) ?? null,
            }),
          ).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
    expect(offered).toBeGreaterThan(100);
  });
});
