import type { Route } from '@studio/clinical-flags';
import { daysAfter, endOfDay, localDay } from '../../http/local-days.js';

/**
 * Within how many days the client should have been seen; `at_once` leaves no day. Null: no clinician is asked. The
 * urgent two follow from the routes themselves; the others are common practice, no source, and are for the clinician
 * who signs the rules to judge.
 */
const withinDays: Readonly<Record<Route, number | 'at_once' | null>> = {
  emergency_now: 'at_once',
  same_day_medical: 0,
  gp_within_days: 3,
  gp_for_vascular_specialist: 14,
  physiotherapist_or_podiatrist: 28,
  fit_with_caution: null,
};

/** These cannot wait for somebody to look: the studio is told by mail. */
export const isUrgent = (route: Route): boolean => {
  const days = withinDays[route];
  return days === 'at_once' || days === 0;
};

export const needsClinician = (route: Route): boolean => withinDays[route] !== null;

/**
 * By when the client should have been seen: days are those of the studio's calendar, to their end.
 *
 * @throws TypeError for a route that asks no clinician
 */
export function deadlineOf(route: Route, clock: { now: Date; timeZone: string }): Date {
  const days = withinDays[route];
  if (days === null) throw new TypeError(`${route} asks no clinician`);
  if (days === 'at_once') return clock.now;
  return endOfDay(daysAfter(localDay(clock.now, clock.timeZone), days), clock.timeZone);
}
