import type { CalendarDay } from './calendar-days.js';
import { covers, intersection, union, type IntervalSet } from './interval-set.js';

/** What a visit takes of fitter, room and bench, in milliseconds. */
export interface VisitTime {
  readonly durationMs: number;
  readonly bufferBeforeMs: number;
  readonly bufferAfterMs: number;
  /** 0 when nothing cures. */
  readonly curingMs: number;
}

export interface Resource {
  readonly id: string;
  /** When it may be taken: open, and not taken yet. */
  readonly free: IntervalSet;
}

export interface Slot {
  readonly start: number;
  /** Any of the fitters goes with any of the rooms and any of the benches. */
  readonly fitterIds: readonly string[];
  readonly roomIds: readonly string[];
  /** Empty when nothing cures. */
  readonly benchIds: readonly string[];
}

/** Every instant at which something may begin that takes from `before` ahead of it to `after` past it. */
export function startTimes(free: IntervalSet, beforeMs: number, afterMs: number): IntervalSet {
  // Half-open with whole milliseconds: the last possible start is the end less one.
  return free
    .map(({ start, end }) => ({ start: start + beforeMs, end: end - afterMs + 1 }))
    .filter(({ start, end }) => start < end);
}

/**
 * The starts a visit may have at one place, on a grid of the place's clock, each with who and what is free for it.
 *
 * @param options.within when the visit may begin
 * @param options.days of the place, which cover `within`
 * @param options.stepMinutes grid of the clock, counted from the full hour; divides 60
 */
export function slots(
  visit: VisitTime,
  resources: { fitters: readonly Resource[]; rooms: readonly Resource[]; benches: readonly Resource[] },
  options: { within: IntervalSet; days: readonly CalendarDay[]; stepMinutes: number },
): Slot[] {
  const occupied = [visit.bufferBeforeMs, visit.durationMs + visit.bufferAfterMs] as const;
  const curing = [-visit.durationMs, visit.durationMs + visit.curingMs] as const;
  const startsOf = (list: readonly Resource[], [before, after]: readonly [number, number]): Resource[] =>
    list.map(({ id, free }) => ({ id, free: startTimes(free, before, after) }));

  const fitters = startsOf(resources.fitters, occupied);
  const rooms = startsOf(resources.rooms, occupied);
  const benches = visit.curingMs > 0 ? startsOf(resources.benches, curing) : [];
  const groups = visit.curingMs > 0 ? [fitters, rooms, benches] : [fitters, rooms];
  const possible = groups
    .map((group) => union(group.flatMap(({ free }) => free)))
    .reduce(intersection, options.within);

  const starts = onTheGrid(possible, options.days, options.stepMinutes);
  const [fittersAt, roomsAt, benchesAt] = [fitters, rooms, benches].map((group) => freeAt(group, starts));
  return starts.map((start, index) => ({
    start,
    fitterIds: fittersAt?.[index] ?? [],
    roomIds: roomsAt?.[index] ?? [],
    benchIds: benchesAt?.[index] ?? [],
  }));
}

/** Whether the visit may begin then with these, whatever the grid. */
export function mayBegin(
  visit: VisitTime,
  start: number,
  free: { fitter: IntervalSet; room: IntervalSet; bench: IntervalSet | null },
): boolean {
  const occupied = {
    start: start - visit.bufferBeforeMs,
    end: start + visit.durationMs + visit.bufferAfterMs,
  };
  const end = start + visit.durationMs;
  return (
    covers(free.fitter, occupied) &&
    covers(free.room, occupied) &&
    (free.bench === null || covers(free.bench, { start: end, end: end + visit.curingMs }))
  );
}

function onTheGrid(set: IntervalSet, days: readonly CalendarDay[], stepMinutes: number): number[] {
  const stepMs = stepMinutes * 60_000;
  return days
    .flatMap(({ start, end, offsetMs, change }) =>
      change
        ? [
            { start, end: change.at, offsetMs },
            { start: change.at, end, offsetMs: change.offsetMs },
          ]
        : [{ start, end, offsetMs }],
    )
    .flatMap((stretch) =>
      intersection(set, [stretch]).flatMap(({ start, end }) => {
        const first = Math.ceil((start + stretch.offsetMs) / stepMs) * stepMs - stretch.offsetMs;
        const count = Math.max(0, Math.ceil((end - first) / stepMs));
        return Array.from({ length: count }, (_, index) => first + index * stepMs);
      }),
    );
}

/** For each of the starts, in order, who of the group may begin then. */
function freeAt(group: readonly Resource[], starts: readonly number[]): string[][] {
  const ids = starts.map((): string[] => []);
  for (const { id, free } of group) {
    let index = 0;
    for (const { start, end } of free) {
      index = firstAtOrAfter(starts, start, index);
      for (; index < starts.length && (starts[index] as number) < end; index += 1) ids[index]?.push(id);
    }
  }
  return ids;
}

function firstAtOrAfter(sorted: readonly number[], value: number, from: number): number {
  let low = from;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
