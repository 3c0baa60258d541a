import {
  cancelMessages,
  closeTask,
  type FollowUp,
  type FollowUpChangeKind,
  orderJob,
  studioClock,
  type TenantContext,
} from '@studio/database';
import { dueAt, planChanges, type FollowUpPlan, type PlanStep } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import * as queries from './follow-ups.queries.js';

/** What is followed up: a signed session, from its signature or from a visit of the client. */
export interface Followed {
  readonly fitSessionId: string;
  readonly clientId: string;
  readonly from: Date;
  readonly fromAppointmentId: string | null;
}

/** Why and how a plan comes to be followed. */
export interface Choice {
  readonly kind: FollowUpChangeKind;
  readonly byPerson: boolean;
  readonly because: string | null;
}

/**
 * Bring a session's follow-ups to what a plan says, each with the order to see to it when due. Its outcome counts as
 * missing until somebody answers, so it is ordered too.
 *
 * @param instead the follow-ups the plan takes the place of, locked
 */
export async function follow(
  tx: EntityManager,
  ctx: TenantContext,
  followed: Followed,
  plan: FollowUpPlan,
  choice: Choice,
  instead: readonly FollowUp[] = [],
): Promise<void> {
  const { studioId } = ctx;
  const { fitSessionId, clientId, from, fromAppointmentId } = followed;
  const { timeZone, now } = await studioClock(tx, studioId);
  const changes = planChanges(instead, plan, {
    dueAt: (step) => dueAt(from, step.after, step.window, timeZone),
    now,
  });
  const ofPlan = { planId: plan.id, planVersion: plan.version, planByPerson: choice.byPerson };
  const { kind, because: reason } = choice;

  const askable = await queries.mayBeAsked(tx, { studioId, clientId });
  for (const { step, dueAt: due } of changes.insert) {
    const id = await queries.insertFollowUp(tx, {
      ...{ studioId, fitSessionId, clientId, fromAppointmentId, ...ofPlan },
      ...{ step, dueAt: due, ...queries.distance(from, due, timeZone), byHand: false },
      ...(askable
        ? { state: 'scheduled', stateReason: null }
        : { state: 'cancelled', stateReason: withoutConsent }),
    });
    if (askable) await orderToSeeTo(tx, { studioId, followUpId: id, at: due });
  }
  for (const { id, step, dueAt: due, moves } of changes.keep) {
    const fields = { ...ofPlan, fromAppointmentId, step };
    if (moves) await reschedule(tx, ctx, rowOf(instead, id), { kind, reason, due, from, timeZone, fields });
    else await queries.updateFollowUp(tx, { studioId, id }, fields);
  }
  for (const id of changes.skip) {
    await setAside(tx, ctx, rowOf(instead, id), {
      kind,
      reason,
      state: 'skipped',
      stateReason: 'plan_changed',
    });
  }
  await orderJob(tx, { studioId, job: 'summarise-outcome', payload: { fitSessionId } });
}

/** Why nobody was asked, where a consent is missing or was taken back. */
export const withoutConsent = 'no_consent';

/** Move what is scheduled to another time. */
export async function reschedule(
  tx: EntityManager,
  { studioId, userId }: TenantContext,
  followUp: FollowUp,
  to: {
    kind: FollowUpChangeKind;
    reason: string | null;
    due: Date;
    from: Date;
    timeZone: string;
    fields?: Partial<
      Pick<FollowUp, 'planId' | 'planVersion' | 'planByPerson' | 'fromAppointmentId' | 'byHand'>
    > & {
      step?: PlanStep;
    };
  },
): Promise<void> {
  const { id, version, dueAt: dueBefore } = followUp;
  const { kind, reason, due, from, timeZone, fields = {} } = to;
  await queries.updateFollowUp(
    tx,
    { studioId, id },
    {
      ...fields,
      ...queries.distance(from, due, timeZone),
      ...{ dueAt: due, state: 'scheduled', stateReason: null, version: version + 1 },
    },
  );
  await queries.insertChange(tx, {
    ...{ studioId, followUpId: id, kind, reason, dueBefore, dueAfter: due },
    ...{ stateAfter: 'scheduled', changedBy: userId },
  });
  await orderToSeeTo(tx, { studioId, followUpId: id, at: due });
}

/** Ask it no more: skipped by the studio, or cancelled because it may not be asked. */
export async function setAside(
  tx: EntityManager,
  { studioId, userId }: TenantContext,
  followUp: FollowUp,
  to: {
    kind: FollowUpChangeKind;
    reason: string | null;
    state: 'skipped' | 'cancelled';
    stateReason: string;
    byHand?: boolean;
  },
): Promise<void> {
  const { id, version, dueAt: dueBefore } = followUp;
  const { kind, reason, state, stateReason, byHand = followUp.byHand } = to;
  await queries.updateFollowUp(tx, { studioId, id }, { state, stateReason, byHand, version: version + 1 });
  await cancelMessages(tx, { studioId, subjectId: id, because: stateReason });
  await closeTask(tx, { studioId, kind: 'follow_up_unanswered', subjectId: id });
  await queries.insertChange(tx, {
    ...{ studioId, followUpId: id, kind, reason, dueBefore, dueAfter: null },
    ...{ stateAfter: state, changedBy: userId },
  });
}

/** An order that finds nothing due does nothing, so those of before a change may stay. */
export const orderToSeeTo = (
  tx: EntityManager,
  { studioId, followUpId, at }: { studioId: string; followUpId: string; at: Date },
): Promise<void> =>
  orderJob(tx, { studioId, job: 'send-follow-up', payload: { followUpId }, availableAt: at });

const rowOf = (rows: readonly FollowUp[], id: string): FollowUp =>
  rows.find((row) => row.id === id) as FollowUp;
