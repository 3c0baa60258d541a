import { clockInstant, type CalendarDay } from './calendar-days.js';
import { difference, union, type Interval, type IntervalSet } from './interval-set.js';

/** Minutes after midnight, 0 to 1440, by the clock on the wall. */
export interface ClockSpan {
  readonly fromMinutes: number;
  readonly untilMinutes: number;
}

/** Hours that return every week. */
export interface WeeklyHours extends ClockSpan {
  /** 1 Monday to 7 Sunday. */
  readonly weekdays: readonly number[];
  readonly breaks: readonly ClockSpan[];
  /** First and last day they hold, included; null without end. */
  readonly validFrom: string;
  readonly validUntil: string | null;
}

/** Days that are not as every week: other hours instead, or closed. */
export interface HoursException {
  readonly kind: 'open' | 'closed';
  readonly firstDay: string;
  readonly lastDay: string;
  /** Null for the whole day. */
  readonly span: ClockSpan | null;
}

export interface Hours {
  /** Null when none were ever recorded: then nothing but exceptions limits. */
  readonly weekly: readonly WeeklyHours[] | null;
  readonly exceptions: readonly HoursException[];
}

const wholeDay: ClockSpan = { fromMinutes: 0, untilMinutes: 1440 };

/**
 * When it is open on these days: the week's hours less their breaks; on days with other hours those instead; less what
 * is closed.
 *
 * @param days of one place, in order
 */
export function openDuring({ weekly, exceptions }: Hours, days: readonly CalendarDay[]): IntervalSet {
  return union(
    days.flatMap((day) => {
      const today = exceptions.filter(({ firstDay, lastDay }) => firstDay <= day.day && day.day <= lastDay);
      const spans = (kind: HoursException['kind']): Interval[] =>
        today.filter((item) => item.kind === kind).map(({ span }) => instants(day, span ?? wholeDay));
      const other = spans('open');
      const usual = other.length > 0 ? union(other) : usualHours(weekly, day);
      const closed = spans('closed');
      return closed.length > 0 ? difference(usual, union(closed)) : usual;
    }),
  );
}

function usualHours(weekly: Hours['weekly'], day: CalendarDay): IntervalSet {
  if (weekly === null) return union([instants(day, wholeDay)]);
  return union(
    weekly
      .filter(
        ({ weekdays, validFrom, validUntil }) =>
          weekdays.includes(day.weekday) &&
          validFrom <= day.day &&
          (validUntil === null || day.day <= validUntil),
      )
      .flatMap((hours) =>
        difference(union([instants(day, hours)]), union(hours.breaks.map((pause) => instants(day, pause)))),
      ),
  );
}

function instants(day: CalendarDay, { fromMinutes, untilMinutes }: ClockSpan): Interval {
  return { start: clockInstant(day, fromMinutes), end: clockInstant(day, untilMinutes) };
}
