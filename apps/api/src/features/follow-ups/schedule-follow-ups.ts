import { orderJob, studioClock, type FollowUp, type TenantContext } from '@studio/database';
import {
  dueAt,
  mayBecome,
  planByCleatChange,
  type FollowUpPlan,
  type PlanStep,
} from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { found, UnknownReference } from '../../http/problem.js';
import { requirePlan } from './find-plan.js';
import { SessionNotSigned } from './follow-ups.errors.js';
import { follow, reschedule, setAside, withoutConsent, type Followed } from './follow.js';
import * as queries from './follow-ups.queries.js';

/**
 * Promise the follow-ups of a session, in the transaction that signs it: by the plan that is named, or else by how far
 * its cleats were moved. Called again for another plan it adds to what is promised.
 *
 * @throws UnknownReference when the studio has no such plan
 */
export async function scheduleFollowUps(
  tx: EntityManager,
  ctx: TenantContext,
  session: {
    fitSessionId: string;
    clientId: string;
    sessionAt: Date;
    planId?: string;
  },
): Promise<void> {
  const { studioId } = ctx;
  const { fitSessionId, clientId, sessionAt: from, planId } = session;
  const plan =
    planId === undefined
      ? planByCleatChange(await queries.cleatChangesMm(tx, { studioId, fitSessionId }))
      : await requirePlan(tx, studioId, planId);
  const rows = await queries.listForUpdate(tx, { studioId, fitSessionId });
  const choice = { kind: 'plan', byPerson: planId !== undefined, because: null } as const;
  await follow(
    tx,
    ctx,
    { fitSessionId, clientId, from, fromAppointmentId: null },
    beside(rows, plan),
    choice,
  );
}

/** Choose the plan anew that nobody chose, since what was recorded of a signed session is seen otherwise now. */
export async function rescheduleFollowUps(
  tx: EntityManager,
  ctx: TenantContext,
  { fitSessionId }: { fitSessionId: string },
): Promise<void> {
  const { studioId } = ctx;
  const session = found(await queries.findSession(tx, { studioId, fitSessionId }));
  const rows = await queries.listForUpdate(tx, { studioId, fitSessionId });
  const byDefault = rows.filter((row) => row.planId !== null && !row.planByPerson);
  if (session.signedAt === null || byDefault.length === 0) return;
  const plan = planByCleatChange(await queries.cleatChangesMm(tx, { studioId, fitSessionId }));
  const followed: Followed = {
    ...{ fitSessionId, clientId: session.clientId, from: session.signedAt, fromAppointmentId: null },
  };
  const choice = { kind: 'plan', byPerson: false, because: 'the session was amended' } as const;
  const others = rows.filter((row) => !byDefault.includes(row));
  await follow(tx, ctx, followed, beside(others, plan), choice, byDefault);
}

/**
 * Choose the plan of a signed session by hand: in place of the one in force, or besides it.
 *
 * @param choice `fromAppointmentId`: a visit of the client that the plan counts from instead of the session; it follows
 *   that visit when it is moved
 * @throws UnknownReference when the studio has no such plan, or the client no such visit
 */
export async function choosePlan(
  tx: EntityManager,
  ctx: TenantContext,
  { fitSessionId }: { fitSessionId: string },
  choice: { planId: string; besides: boolean; because: string; fromAppointmentId?: string },
): Promise<void> {
  const { studioId } = ctx;
  const session = found(await queries.findSession(tx, { studioId, fitSessionId }));
  if (session.signedAt === null) throw new SessionNotSigned();
  const plan = await requirePlan(tx, studioId, choice.planId);
  const rows = await queries.listForUpdate(tx, { studioId, fitSessionId });
  const instead = choice.besides
    ? []
    : rows.filter(({ planId, fromAppointmentId }) => planId !== null && fromAppointmentId === null);
  const others = rows.filter((row) => !instead.includes(row));
  const { clientId, signedAt } = session;
  const { fromAppointmentId = null } = choice;
  const visitAt =
    fromAppointmentId === null
      ? null
      : await queries.findVisitStart(tx, { studioId, clientId, id: fromAppointmentId });
  if (fromAppointmentId !== null && visitAt === null) throw new UnknownReference('fromAppointmentId');
  await follow(
    tx,
    ctx,
    { fitSessionId, clientId, from: visitAt ?? signedAt, fromAppointmentId },
    beside(others, plan),
    { kind: 'plan', byPerson: true, because: choice.because },
    instead,
  );
}

/** The plan less what is promised already at the same step: nobody is asked twice at one time. */
const beside = (rows: readonly FollowUp[], plan: FollowUpPlan): FollowUpPlan => ({
  ...plan,
  steps: plan.steps.filter(({ id }) => !rows.some(({ stepId }) => stepId === id)),
});

/** Follow a visit that was moved; one that was called off is not followed, until it takes place after all. */
export async function moveFollowUpsWith(
  tx: EntityManager,
  ctx: TenantContext,
  appointment: { appointmentId: string; startsAt: Date | null },
): Promise<void> {
  const { studioId } = ctx;
  const { appointmentId, startsAt } = appointment;
  const rows = await queries.listForUpdate(tx, { studioId, fromAppointmentId: appointmentId });
  const { timeZone } = await studioClock(tx, studioId);
  const stateReason = 'visit_cancelled';
  const kind = 'appointment';
  const open = rows.filter(
    (row) => !row.byHand && (row.state === 'scheduled' || row.stateReason === stateReason),
  );
  for (const row of open) {
    if (startsAt === null) {
      await setAside(tx, ctx, row, { kind, reason: null, state: 'skipped', stateReason });
      continue;
    }
    const { after, window } = row.step as PlanStep;
    const due = dueAt(startsAt, after, window, timeZone);
    await reschedule(tx, ctx, row, { kind, reason: null, due, from: startsAt, timeZone });
  }
  await summariseAgain(tx, studioId, open);
}

/**
 * After a consent was given or taken back: cancel at once what may not be asked any more; schedule again, of what had
 * been cancelled for it, what is not yet due.
 */
export async function reconsiderFollowUps(
  tx: EntityManager,
  ctx: TenantContext,
  { clientId }: { clientId: string },
): Promise<void> {
  const { studioId } = ctx;
  const rows = await queries.listForUpdate(tx, { studioId, clientId });
  const { timeZone, now } = await studioClock(tx, studioId);
  const kind = 'consent';
  if (await queries.mayBeAsked(tx, { studioId, clientId })) {
    const again = rows.filter(
      (row) => row.state === 'cancelled' && row.stateReason === withoutConsent && row.dueAt > now,
    );
    for (const row of again) {
      const from = await countsFrom(tx, row);
      await reschedule(tx, ctx, row, { kind, reason: null, due: row.dueAt, from, timeZone });
    }
    await summariseAgain(tx, studioId, again);
    return;
  }
  const open = rows.filter(({ state }) => mayBecome(state, 'cancelled'));
  for (const row of open) {
    await setAside(tx, ctx, row, { kind, reason: null, state: 'cancelled', stateReason: withoutConsent });
  }
  await summariseAgain(tx, studioId, open);
}

/** The instant its days count from. */
export async function countsFrom(
  tx: EntityManager,
  { studioId, clientId, fitSessionId, fromAppointmentId }: FollowUp,
): Promise<Date> {
  if (fromAppointmentId !== null) {
    const startsAt = await queries.findVisitStart(tx, { studioId, clientId, id: fromAppointmentId });
    if (startsAt !== null) return startsAt;
  }
  const session = await queries.findSession(tx, { studioId, fitSessionId });
  if (!session?.signedAt) throw new TypeError('a follow-up belongs to a signed session');
  return session.signedAt;
}

/** Why an answer is missing depends on whether it is asked for. */
export async function summariseAgain(
  tx: EntityManager,
  studioId: string,
  rows: readonly Pick<FollowUp, 'fitSessionId'>[],
): Promise<void> {
  for (const fitSessionId of new Set(rows.map((row) => row.fitSessionId))) {
    await orderJob(tx, { studioId, job: 'summarise-outcome', payload: { fitSessionId } });
  }
}
