import type { FreeSlot } from '@studio/availability';
import type { WishedTime } from '@studio/database';

/** Whether a free time is one of those wished for: by weekday and time of day of its place. */
export function wishFits(
  { localStart }: Pick<FreeSlot, 'localStart'>,
  { weekdays, times }: { readonly weekdays: readonly number[]; readonly times: readonly WishedTime[] },
): boolean {
  const weekday = new Date(`${localStart.slice(0, 10)}T00:00:00Z`).getUTCDay() || 7;
  const time = localStart.slice(11, 16);
  const isTime = times.length === 0 || times.some(({ from, until }) => from <= time && time < until);
  return weekdays.includes(weekday) && isTime;
}
