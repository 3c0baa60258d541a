import { Temporal } from 'temporal-polyfill';
import { auditLog, type KeptFor } from './countries.js';

const ofAge = 18;

/**
 * The first day on which a record need not be kept any more.
 *
 * @param last day of the last entry, like 2026-03-02
 * @param bornOn null when it is not known: the person is then taken to be of age
 * @example keepUntil(countries['GB-ENG'].healthRecord, '2026-03-02', null) // 2034-03-02
 */
export function keepUntil({ years, untilAge, from }: KeptFor, last: string, bornOn: string | null): string {
  const lastDay = Temporal.PlainDate.from(last);
  const counted = from === 'end_of_year' ? lastDay.with({ month: 12, day: 31 }).add({ days: 1 }) : lastDay;
  const after = counted.add({ years });
  if (untilAge === undefined || bornOn === null) return after.toString();
  const born = Temporal.PlainDate.from(bornOn);
  const wasMinor = Temporal.PlainDate.compare(born.add({ years: ofAge }), lastDay) > 0;
  const birthday = born.add({ years: untilAge });
  return (wasMinor && Temporal.PlainDate.compare(birthday, after) > 0 ? birthday : after).toString();
}

/**
 * The day a request of a person has to be answered by: a month after it came, and two more where it was extended (GDPR,
 * article 12(3)). From a day that month has not, its last. Weekends and holidays give no longer: the stricter reading.
 */
export function answerBy(receivedOn: string, extended: boolean): string {
  return Temporal.PlainDate.from(receivedOn)
    .add({ months: extended ? 3 : 1 })
    .toString();
}

/**
 * The day from which the audit log is still kept: what was written before may go, a month at a time.
 *
 * @param today like 2026-03-02
 * @example auditKeptFrom('2026-03-02') // 2020-03-02
 */
export function auditKeptFrom(today: string): string {
  return Temporal.PlainDate.from(today).subtract({ years: auditLog.years }).toString();
}
