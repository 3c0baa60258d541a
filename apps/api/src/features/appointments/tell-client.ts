import { cancelMessages, orderMessage, readClock, type MessageOrder } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import { reminderTimes } from '@studio/messages';
import type { EntityManager } from 'typeorm';
import { findSettings } from '../messages/index.js';
import { visitFacts, type AppointmentRecord } from './appointments.queries.js';

/** What waits for a time that follows from the visit's. */
const timed = ['reminder_two_days', 'reminder_two_hours', 'intake_reminder', 'curing_done'] as const;

interface Options {
  readonly studioId: string;
  /** False: nothing is said of this change. Reminders are a matter of the studio's settings alone. */
  readonly tell: boolean;
}

/** Confirm a visit that was booked, and promise its reminders. */
export async function tellOfBooking(
  tx: EntityManager,
  visit: AppointmentRecord,
  options: Options,
): Promise<void> {
  await announce(tx, visit, 'appointment_confirmed', options);
  await promiseReminders(tx, visit, options.studioId);
}

/** Tell of another time, fitter or room; what was promised for the old time is promised for the new one instead. */
export async function tellOfMove(
  tx: EntityManager,
  { before, after }: { before: AppointmentRecord; after: AppointmentRecord },
  options: Options,
): Promise<void> {
  if (after.state !== 'booked') return;
  const { studioId } = options;
  await cancelMessages(tx, {
    studioId,
    subjectId: after.id,
    templates: timed,
    because: 'the visit was moved',
  });
  const isAnother =
    before.startsAt !== after.startsAt ||
    before.fitterId !== after.fitterId ||
    before.roomId !== after.roomId;
  if (isAnother) {
    const data = { previousStartsAt: before.startsAt };
    await announce(tx, after, 'appointment_moved', options, data);
  }
  await promiseReminders(tx, after, studioId);
}

/** Nothing more is said of a cancelled visit but that it is cancelled; of one that was only held, not even that. */
export async function tellOfCancellation(
  tx: EntityManager,
  { before, after }: { before: AppointmentRecord; after: AppointmentRecord },
  options: Options,
): Promise<void> {
  if (before.state !== 'booked') return;
  const { studioId } = options;
  await cancelMessages(tx, { studioId, subjectId: after.id, because: 'the visit was cancelled' });
  await announce(tx, after, 'appointment_cancelled', options);
}

async function announce(
  tx: EntityManager,
  visit: AppointmentRecord,
  template: MessageTemplateName,
  { studioId, tell }: Options,
  data: Record<string, string> = {},
): Promise<void> {
  if (!tell || !(await findSettings(tx, studioId)).announceAppointments) return;
  await orderMessage(tx, { ...about(visit, studioId), template, data, expiresAt: new Date(visit.startsAt) });
}

async function promiseReminders(
  tx: EntityManager,
  visit: AppointmentRecord,
  studioId: string,
): Promise<void> {
  const { remindTwoDays, remindTwoHours, quietHours: quiet } = await findSettings(tx, studioId);
  const startsAt = new Date(visit.startsAt);
  const { twoDays, twoHours } = reminderTimes({
    ...{ startsAt, quiet, timeZone: visit.timeZone },
    now: await readClock(tx),
  });
  const remind = async (template: MessageTemplateName, notBefore: Date): Promise<void> => {
    await orderMessage(tx, { ...about(visit, studioId), template, notBefore, expiresAt: startsAt });
  };
  if (twoDays && remindTwoDays) {
    await remind('reminder_two_days', twoDays);
    const { prerequisites, intakeTaken } = await visitFacts(tx, { studioId, id: visit.id });
    if (prerequisites.includes('intake') && !intakeTaken) await remind('intake_reminder', twoDays);
  }
  if (twoHours && remindTwoHours) await remind('reminder_two_hours', twoHours);
  if (visit.curedAt !== null) {
    const notBefore = new Date(visit.curedAt);
    await orderMessage(tx, { ...about(visit, studioId), template: 'curing_done', notBefore });
  }
}

const about = (
  { id, clientId }: AppointmentRecord,
  studioId: string,
): Pick<MessageOrder, 'studioId' | 'subjectId'> & { clientId: string } => ({
  studioId,
  clientId,
  subjectId: id,
});
