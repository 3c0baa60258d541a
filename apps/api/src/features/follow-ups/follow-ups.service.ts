import { Injectable } from '@nestjs/common';
import { sinceTheFit } from '@studio/clinical-flags';
import {
  recordAudit,
  sameClientIds,
  studioClock,
  TenantTransaction,
  violates,
  type FollowUp,
  type TenantContext,
} from '@studio/database';
import { dueOn, mayBecome, smallChange, type PlanStep } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, StaleVersion, UnknownReference } from '../../http/problem.js';
import { requireClient, requireConsent, requireKnownClient } from '../clients/index.js';
import { givenAnswers, QuestionSetResponse } from '../screenings/index.js';
import { askedOf } from './asked-of.js';
import type { FollowUpReceivedResponse } from './follow-up-links.dto.js';
import { handIn } from './hand-in.js';
import {
  AlreadyPromised,
  DayIsOver,
  MayNotBeAsked,
  SessionNotSigned,
  StateImpossible,
} from './follow-ups.errors.js';
import { orderToSeeTo, reschedule, setAside } from './follow.js';
import {
  FollowUpChangeResponse,
  SentRideResponse,
  toLine,
  type AddFollowUpRequest,
  type ChoosePlanRequest,
  type FollowUpLineResponse,
  type FollowUpPage,
  type FollowUpDetailResponse,
  type PhoneAnswersRequest,
  type ListFollowUpsQuery,
  type MoveFollowUpRequest,
  type SkipFollowUpRequest,
} from './follow-ups.dto.js';
import * as queries from './follow-ups.queries.js';
import { findRide } from './rides.queries.js';
import { choosePlan, countsFrom, summariseAgain } from './schedule-follow-ups.js';

/** A follow-up added by hand asks what the plans ask of an outcome. */
const [usualStep] = smallChange.steps as [PlanStep];

@Injectable()
export class FollowUpsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, clientId: string, query: ListFollowUpsQuery): Promise<FollowUpPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      const page = { studioId, clientId, after: query.after ?? null, limit: limit + 1 };
      const { items, next } = pageOf(await queries.listOfClient(tx, page), limit);
      return { items: items.map(toLine), next };
    });
  }

  /** Reading health answers is itself written down. */
  async get(ctx: TenantContext, id: string): Promise<FollowUpDetailResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const row = found(await queries.findFollowUp(tx, { studioId, id }));
      await recordAudit(tx, ctx, { action: 'follow-ups.read', recordId: id });
      const { set } = await askedOf(tx, row);
      const given = await queries.listAnswers(tx, { studioId, followUpId: id });
      const ride = await findRide(tx, { studioId, followUpId: id });
      const answers = givenAnswers(set, Object.fromEntries(given.map((one) => [one.question, one.answer])));
      return {
        ...toLine(row),
        questions: QuestionSetResponse.of(set),
        answers: answers.map(({ key, text, inWords }) => ({ question: key, text, answer: inWords })),
        ride: ride && SentRideResponse.of(ride),
      };
    });
  }

  /** What the client said on the phone; kept and judged as if they had written it. */
  async answerByPhone(
    ctx: TenantContext,
    id: string,
    { answers }: PhoneAnswersRequest,
  ): Promise<FollowUpReceivedResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      const row = found(await queries.findFollowUpForUpdate(tx, { studioId, id }));
      if (!mayBecome(row.state, 'answered')) throw new StateImpossible(row.state);
      await requireConsent(tx, { studioId, clientId: row.clientId }, 'health_data');
      const { advice, caution } = await handIn(tx, ctx, row, answers);
      return { advice: [...advice], caution };
    });
  }

  async changes(ctx: TenantContext, id: string): Promise<FollowUpChangeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      found(await queries.findFollowUp(tx, { studioId, id }));
      const rows = await queries.listChanges(tx, { studioId, followUpId: id });
      return rows.map((row) => FollowUpChangeResponse.of(row));
    });
  }

  async choosePlan(
    ctx: TenantContext,
    fitSessionId: string,
    request: ChoosePlanRequest,
  ): Promise<FollowUpLineResponse[]> {
    const { studioId } = ctx;
    const { besides = false, ...choice } = request;
    return this.transaction.run(ctx, async (tx) => {
      await choosePlan(tx, ctx, { fitSessionId }, { besides, ...choice });
      await recordAudit(tx, ctx, { action: 'follow-ups.choose-plan', recordId: fitSessionId });
      const rows = await queries.listForUpdate(tx, { studioId, fitSessionId });
      return rows.map(toLine);
    });
  }

  async add(
    ctx: TenantContext,
    clientId: string,
    request: AddFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    const { studioId } = ctx;
    const { fitSessionId, dueOn: day, because: reason } = request;
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        await requireClient(tx, studioId, clientId);
        const session = await queries.findSession(tx, { studioId, fitSessionId });
        const person = await sameClientIds(tx, { studioId, clientId });
        if (!session || !person.includes(session.clientId)) throw new UnknownReference('fitSessionId');
        if (session.signedAt === null) throw new SessionNotSigned();
        if (!(await queries.mayBeAsked(tx, { studioId, clientId }))) throw new MayNotBeAsked();
        const { dueAt, timeZone } = await dayToCome(tx, studioId, day, usualStep);
        const { id: questionSetId, version } = sinceTheFit;
        const id = await queries.insertFollowUp(tx, {
          ...{ studioId, clientId, fitSessionId, planId: null, planVersion: null, planByPerson: true },
          step: { ...usualStep, id: `added-${day}`, questionSet: { id: questionSetId, version } },
          ...{ fromAppointmentId: null, dueAt, ...queries.distance(session.signedAt, dueAt, timeZone) },
          ...{ byHand: true, state: 'scheduled', stateReason: null },
        });
        await queries.insertChange(tx, {
          ...{ studioId, followUpId: id, kind: 'add', reason, dueBefore: null, dueAfter: dueAt },
          ...{ stateAfter: 'scheduled', changedBy: ctx.userId },
        });
        await orderToSeeTo(tx, { studioId, followUpId: id, at: dueAt });
        await summariseAgain(tx, studioId, [{ fitSessionId }]);
        await recordAudit(tx, ctx, { action: 'follow-ups.add', recordId: id });
        return toLine(found(await queries.findFollowUp(tx, { studioId, id })));
      });
    } catch (error) {
      throw violates(error, 'follow_ups_once_per_step') ? new AlreadyPromised() : error;
    }
  }

  /** What was skipped or cancelled is asked after all when it is moved to a day to come. */
  async move(
    ctx: TenantContext,
    id: string,
    version: number,
    request: MoveFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    return this.change(ctx, id, version, 'move', async (tx, row) => {
      const { studioId } = ctx;
      if (row.state !== 'scheduled' && !mayBecome(row.state, 'scheduled'))
        throw new StateImpossible(row.state);
      if (!(await queries.mayBeAsked(tx, row))) throw new MayNotBeAsked();
      const { dueAt: due, timeZone } = await dayToCome(tx, studioId, request.dueOn, row.step as PlanStep);
      const from = await countsFrom(tx, row);
      const to = {
        kind: 'move',
        reason: request.because,
        due,
        from,
        timeZone,
        fields: { byHand: true },
      } as const;
      await reschedule(tx, ctx, row, to);
    });
  }

  async skip(
    ctx: TenantContext,
    id: string,
    version: number,
    request: SkipFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    return this.change(ctx, id, version, 'skip', async (tx, row) => {
      if (!mayBecome(row.state, 'skipped')) throw new StateImpossible(row.state);
      await setAside(tx, ctx, row, {
        ...{
          kind: 'skip',
          reason: request.because,
          state: 'skipped',
          stateReason: 'skipped_by_studio',
          byHand: true,
        },
      });
    });
  }

  private async change(
    ctx: TenantContext,
    id: string,
    version: number,
    action: 'move' | 'skip',
    work: (tx: EntityManager, row: FollowUp) => Promise<void>,
  ): Promise<FollowUpLineResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const row = found(await queries.findFollowUpForUpdate(tx, key));
      if (row.version !== version) throw new StaleVersion();
      await work(tx, row);
      await summariseAgain(tx, ctx.studioId, [row]);
      await recordAudit(tx, ctx, { action: `follow-ups.${action}`, recordId: id });
      return toLine(found(await queries.findFollowUp(tx, key)));
    });
  }
}

/** @throws DayIsOver */
async function dayToCome(
  tx: EntityManager,
  studioId: string,
  day: string,
  { window }: PlanStep,
): Promise<{ dueAt: Date; timeZone: string }> {
  const { now, timeZone } = await studioClock(tx, studioId);
  const dueAt = dueOn(day, window, timeZone);
  if (dueAt <= now) throw new DayIsOver();
  return { dueAt, timeZone };
}
