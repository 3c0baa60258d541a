import {
  cancelMessages,
  closeTask,
  finishOrder,
  openTask,
  orderJob,
  orderMessage,
  studioClock,
  type FollowUp,
  type TenantTransaction,
} from '@studio/database';
import { dueAt, inWindow, nextAction, type NextAction, type PlanStep } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import * as queries from './send-follow-up.queries.js';

/**
 * Does what a follow-up's plan says is due, and orders the next look. All of it is rows of one transaction: run twice,
 * the second time finds nothing due.
 */
export class SendFollowUpJob implements JobHandler<'send-follow-up'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId, payload }: Order<'send-follow-up'>): Promise<void> {
    const key = { studioId, id: payload.followUpId };
    await this.transaction.run({ studioId }, async (tx) => {
      const followUp = await queries.findFollowUpForUpdate(tx, key);
      if (followUp) await seeTo(tx, followUp);
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}

async function seeTo(tx: EntityManager, followUp: FollowUp): Promise<void> {
  const { studioId, id } = followUp;
  const { now, timeZone } = await studioClock(tx, studioId);
  const step = followUp.step as PlanStep;
  const next = nextAction(asked(followUp), step, timeZone);
  if (!next || next.at > now) return;

  const opensAt = inWindow(now, step.window, timeZone);
  if (next.action !== 'close' && opensAt > now) {
    await lookAgain(tx, followUp, opensAt);
    return;
  }
  await carryOut(
    tx,
    followUp,
    step,
    next.action === 'ask' ? await howToAsk(tx, followUp, now, timeZone) : next.action,
  );
  const after = await queries.findFollowUpForUpdate(tx, { studioId, id });
  const then = after && nextAction(asked(after), step, timeZone);
  if (then) await lookAgain(tx, followUp, then.at);
  // Why an answer is missing depends on whether it was asked for.
  await orderJob(tx, {
    studioId,
    job: 'summarise-outcome',
    payload: { fitSessionId: followUp.fitSessionId },
  });
}

/** Asked by mail or, where that was not possible, by phone. */
const asked = ({ state, dueAt: due, sentAt, phonedAt }: FollowUp): Parameters<typeof nextAction>[0] => ({
  state,
  dueAt: due,
  askedAt: sentAt ?? phonedAt,
});

type Deed = Exclude<NextAction['action'], 'ask'> | 'mail' | 'too_late' | 'no_consent';

async function howToAsk(tx: EntityManager, followUp: FollowUp, now: Date, timeZone: string): Promise<Deed> {
  const { channel, unanswered, window } = followUp.step as PlanStep;
  const { mayBeAsked, byMail } = await queries.howToReach(tx, followUp);
  if (!mayBeAsked) return 'no_consent';
  // After an outage: by now it would have been given up.
  const patienceDays = unanswered.at(-1)?.afterDays ?? 0;
  if (dueAt(followUp.dueAt, { days: patienceDays }, window, timeZone) <= now) return 'too_late';
  return channel === 'mail' && byMail ? 'mail' : 'phone';
}

async function carryOut(tx: EntityManager, followUp: FollowUp, step: PlanStep, deed: Deed): Promise<void> {
  const { studioId, id, clientId } = followUp;
  const key = { studioId, id };
  const task = { studioId, kind: 'follow_up_unanswered', subjectId: id } as const;
  switch (deed) {
    case 'mail':
      await queries.markState(tx, key, { state: 'sent' }, 'sentAt');
      await orderMessage(tx, { studioId, clientId, template: 'follow_up', subjectId: id });
      return;
    case 'remind':
      await queries.markState(tx, key, { state: 'reminded' }, 'remindedAt');
      await orderMessage(tx, { studioId, clientId, template: 'follow_up_reminder', subjectId: id });
      return;
    case 'phone': {
      const stateReason = followUp.sentAt === null && step.channel === 'mail' ? 'no_mail_address' : null;
      await queries.markState(tx, key, { state: 'phoned', stateReason }, 'phonedAt');
      await openTask(tx, { ...task, role: step.tell, clientId });
      return;
    }
    case 'close':
      await queries.markState(tx, key, { state: 'unanswered' }, 'closedAt');
      await cancelMessages(tx, { studioId, subjectId: id, because: 'given up' });
      await closeTask(tx, task);
      return;
    case 'too_late':
    case 'no_consent':
      await queries.markState(tx, key, { state: 'cancelled', stateReason: deed }, 'closedAt');
  }
}

const lookAgain = (tx: EntityManager, { studioId, id }: FollowUp, availableAt: Date): Promise<void> =>
  orderJob(tx, { studioId, job: 'send-follow-up', payload: { followUpId: id }, availableAt });
