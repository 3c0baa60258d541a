import { studioClock, type SqlRunner } from '@studio/database';
import { localDay } from '../../http/local-days.js';
import { taxRatesOn } from './price-list.queries.js';

/** The rate of every tax class that has one today, by the studio's calendar, in percent. */
export async function taxRatesToday(sql: SqlRunner, studioId: string): Promise<Map<string, string>> {
  const { now, timeZone } = await studioClock(sql, studioId);
  return taxRatesOn(sql, { studioId, day: localDay(now, timeZone) });
}
