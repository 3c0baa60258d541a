import { cancelMessages, orderMessage, studioClock, type Referral } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { daysAfter, localDay, timeOfDay } from '../../http/local-days.js';

/** The day before, when there is a day left to see somebody; common practice, no source. */
const at = { daysBefore: 1, hour: '10:00' };

/**
 * Remind the client of the day that was agreed on when the letter was handed over; not where it is too near for that. The
 * studio has a task of its own once it is over.
 */
export async function promiseReminder(
  tx: EntityManager,
  { studioId, id: subjectId, clientId, dueAt }: Referral,
): Promise<void> {
  const { now, timeZone } = await studioClock(tx, studioId);
  // A deadline is the end of its day, which is the first instant of the next.
  const dueOn = localDay(new Date(dueAt.getTime() - 1), timeZone);
  const notBefore = timeOfDay(daysAfter(dueOn, -at.daysBefore), at.hour, timeZone);
  if (notBefore <= now) return;
  await orderMessage(tx, {
    ...{ studioId, clientId, template: 'referral_deadline', subjectId },
    ...{ data: { dueOn }, notBefore, expiresAt: dueAt },
  });
}

export const takeBackReminder = (
  tx: EntityManager,
  { studioId, referralId: subjectId }: { studioId: string; referralId: string },
): Promise<void> =>
  cancelMessages(tx, {
    ...{ studioId, subjectId, templates: ['referral_deadline'], because: 'the case was answered' },
  });
