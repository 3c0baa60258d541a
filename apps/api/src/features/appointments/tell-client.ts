import { cancelMessages, orderMessage, readClock, together, type MessageOrder } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import { reminderTimes } from '@studio/messages';
import type { EntityManager } from 'typeorm';
import { findSettings } from '../messages/index.js';
import { visitFacts, type AppointmentRecord, type VisitFacts } from './appointments.queries.js';

/** What waits for a time that follows from the visit's. */
const timed = ['reminder_two_days', 'reminder_two_hours', 'intake_reminder', 'curing_done'] as const;

interface Options {
  readonly studioId: string;
  /** False: nothing is said of this change. Reminders are a matter of the studio's settings alone. */
  readonly tell: boolean;
}

/** What is said, without to whom and of which visit. */
type Saying = Pick<MessageOrder, 'template' | 'data' | 'notBefore' | 'expiresAt'>;

/** Confirm a visit that was booked, and promise its reminders. */
export async function tellOfBooking(
  tx: EntityManager,
  visit: AppointmentRecord,
  { studioId, tell }: Options,
): Promise<void> {
  const circumstances = await look(tx, visit, studioId);
  const confirms = tell && circumstances.settings.announceAppointments;
  await say(tx, visit, studioId, [
    ...(confirms ? [news(visit, 'appointment_confirmed')] : []),
    ...reminders(visit, circumstances),
  ]);
}

/** Tell of another time, fitter or room; what was promised for the old time is promised for the new one instead. */
export async function tellOfMove(
  tx: EntityManager,
  { before, after }: { before: AppointmentRecord; after: AppointmentRecord },
  { studioId, tell }: Options,
): Promise<void> {
  if (after.state !== 'booked') return;
  const promised = { studioId, subjectId: after.id, templates: timed };
  const [circumstances] = await together([
    look(tx, after, studioId),
    cancelMessages(tx, { ...promised, because: 'the visit was moved' }),
  ]);
  const isAnother =
    before.startsAt !== after.startsAt ||
    before.fitterId !== after.fitterId ||
    before.roomId !== after.roomId;
  const tells = isAnother && tell && circumstances.settings.announceAppointments;
  await say(tx, after, studioId, [
    ...(tells ? [news(after, 'appointment_moved', { previousStartsAt: before.startsAt })] : []),
    ...reminders(after, circumstances),
  ]);
}

/** Nothing more is said of a cancelled visit but that it is cancelled; of one that was only held, not even that. */
export async function tellOfCancellation(
  tx: EntityManager,
  { before, after }: { before: AppointmentRecord; after: AppointmentRecord },
  { studioId, tell }: Options,
): Promise<void> {
  if (before.state !== 'booked') return;
  const [{ announceAppointments }] = await together([
    findSettings(tx, studioId),
    cancelMessages(tx, { studioId, subjectId: after.id, because: 'the visit was cancelled' }),
  ]);
  if (tell && announceAppointments) await say(tx, after, studioId, [news(after, 'appointment_cancelled')]);
}

interface Circumstances {
  readonly settings: Awaited<ReturnType<typeof findSettings>>;
  readonly facts: VisitFacts;
  readonly now: Date;
}

async function look(tx: EntityManager, { id }: AppointmentRecord, studioId: string): Promise<Circumstances> {
  const [settings, facts, now] = await together([
    findSettings(tx, studioId),
    visitFacts(tx, { studioId, id }),
    readClock(tx),
  ]);
  return { settings, facts, now };
}

async function say(
  tx: EntityManager,
  { id, clientId }: AppointmentRecord,
  studioId: string,
  sayings: readonly Saying[],
): Promise<void> {
  const about = { studioId, clientId, subjectId: id };
  await together(sayings.map((saying) => orderMessage(tx, { ...about, ...saying })));
}

const news = (
  { startsAt }: AppointmentRecord,
  template: MessageTemplateName,
  data: Record<string, string> = {},
): Saying => ({ template, data, expiresAt: new Date(startsAt) });

function reminders(visit: AppointmentRecord, { settings, facts, now }: Circumstances): Saying[] {
  const { remindTwoDays, remindTwoHours, quietHours: quiet } = settings;
  const startsAt = new Date(visit.startsAt);
  const { twoDays, twoHours } = reminderTimes({ startsAt, quiet, timeZone: visit.timeZone, now });
  const sayings: Saying[] = [];
  if (twoDays && remindTwoDays) {
    const then = { notBefore: twoDays, expiresAt: startsAt };
    sayings.push({ template: 'reminder_two_days', ...then });
    if (facts.prerequisites.includes('intake') && !facts.intakeTaken) {
      sayings.push({ template: 'intake_reminder', ...then });
    }
  }
  if (twoHours && remindTwoHours) {
    sayings.push({ template: 'reminder_two_hours', notBefore: twoHours, expiresAt: startsAt });
  }
  if (visit.curedAt !== null) {
    sayings.push({ template: 'curing_done', notBefore: new Date(visit.curedAt) });
  }
  return sayings;
}
