import { Injectable } from '@nestjs/common';
import {
  cancelMessages,
  closeTask,
  openTask,
  orderJob,
  recordAudit,
  studioClock,
  TenantTransaction,
  type RightsRequest,
  type RightsRequestState,
  type TenantContext,
} from '@studio/database';
import { answerBy } from '@studio/retention';
import type { EntityManager } from 'typeorm';
import { daysAfter, endOfDay, localDay } from '../../http/local-days.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import { requireKnownClient, requireOwnRecord } from '../clients/index.js';
import { reconsiderFollowUps } from '../follow-ups/index.js';
import { hasReadyExport } from './person-exports.queries.js';
import { findChoice } from './retention.queries.js';
import {
  RightsRequestResponse,
  type ExtendRightsRequest,
  type FulfilRightsRequest,
  type ListRightsRequestsQuery,
  type RecordRightsRequest,
  type RightsRequestPage,
} from './rights-requests.dto.js';
import {
  CopyMissing,
  ExtendedAlready,
  NotRestricted,
  RetentionUndecided,
  RightsStepImpossible,
  VisitsBooked,
} from './rights.errors.js';
import * as queries from './rights-requests.queries.js';
import { following } from './states.js';

/** The owner is told so long before a request has to be answered. */
const toldDaysBefore = 7;

type Fields = Parameters<typeof queries.updateRequest>[2];

@Injectable()
export class RightsRequestsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async record(
    ctx: TenantContext,
    clientId: string,
    { kind, receivedOn: given }: RecordRightsRequest,
  ): Promise<RightsRequestResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireOwnRecord(tx, studioId, clientId);
      const { now, timeZone } = await studioClock(tx, studioId);
      const today = localDay(now, timeZone);
      const receivedOn = given ?? today;
      if (receivedOn > today) {
        throw new InvalidRequest([{ field: 'receivedOn', message: 'must not be after today' }]);
      }
      const dueOn = answerBy(receivedOn, false);
      const recordedBy = ctx.userId as string;
      const request = await queries.insertRequest(tx, {
        ...{ studioId, clientId, kind, receivedOn, dueOn, recordedBy },
      });
      const dueAt = endOfDay(daysAfter(dueOn, -toldDaysBefore), timeZone);
      await openTask(tx, {
        ...{ studioId, clientId, kind: 'rights_request', role: 'owner', subjectId: request.id, dueAt },
      });
      await recordAudit(tx, ctx, { action: 'rights-requests.record', recordId: request.id, fields: [kind] });
      return RightsRequestResponse.of(request, []);
    });
  }

  async list(ctx: TenantContext, query: ListRightsRequestsQuery): Promise<RightsRequestPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const { clientId, state, after = null } = query;
    return this.transaction.run(ctx, async (tx) => {
      if (clientId !== undefined) await requireKnownClient(tx, studioId, clientId);
      const rows = await queries.listRequests(tx, { studioId, clientId, state, after, limit: limit + 1 });
      const { items, next } = pageOf(rows, limit);
      const parts = await queries.listParts(tx, { studioId, requestIds: items.map(({ id }) => id) });
      return { items: items.map((row) => RightsRequestResponse.of(row, parts.get(row.id) ?? [])), next };
    });
  }

  async get(ctx: TenantContext, id: string): Promise<RightsRequestResponse> {
    return this.transaction.run(ctx, (tx) => read(tx, { studioId: ctx.studioId, id }));
  }

  async checkIdentity(ctx: TenantContext, id: string, version: number, how: string) {
    return this.step(ctx, { id, version, to: 'identity_checked' }, () =>
      Promise.resolve({ identityCheckedHow: how }),
    );
  }

  async refuse(ctx: TenantContext, id: string, version: number, reason: string) {
    return this.step(ctx, { id, version, to: 'refused' }, () => Promise.resolve({ decision: reason }));
  }

  /** What was asked for is done: at once, or for an erasure by the worker. */
  async fulfil(ctx: TenantContext, id: string, version: number, { done }: FulfilRightsRequest) {
    const decision = done ?? null;
    return this.step(ctx, { id, version, to: 'done' }, async (tx, { kind, clientId }) => {
      const of = { studioId: ctx.studioId, clientId: clientId as string };
      switch (kind) {
        case 'access':
          if (!(await hasReadyExport(tx, { studioId: ctx.studioId, requestId: id }))) throw new CopyMissing();
          return { decision };
        case 'correction':
          return { decision };
        case 'restriction':
          await onlyKeep(tx, ctx, of, 'the record is restricted');
          return { decision };
        case 'erasure':
          await this.beginErasure(tx, ctx, of, id);
          return { decision, state: 'under_way' as const };
      }
    });
  }

  async extend(
    ctx: TenantContext,
    id: string,
    version: number,
    { because }: ExtendRightsRequest,
  ): Promise<RightsRequestResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const request = found(await queries.findRequestForUpdate(tx, key));
      if (!following[request.state].includes('refused')) throw new RightsStepImpossible(request.state);
      if (request.extendedBecause !== null) throw new ExtendedAlready();
      const fields = { extendedBecause: because, dueOn: answerBy(request.receivedOn, true) };
      if (!(await queries.updateRequest(tx, { ...key, version }, fields))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'rights-requests.extend', recordId: id });
      return read(tx, key);
    });
  }

  /** The record is used again; the person has been told before (article 18(3)). */
  async endRestriction(ctx: TenantContext, clientId: string): Promise<void> {
    const of = { studioId: ctx.studioId, clientId };
    await this.transaction.run(ctx, async (tx) => {
      await requireOwnRecord(tx, of.studioId, clientId);
      const restricted = await queries.isRestricted(tx, of);
      if (!restricted || (await queries.waitsForErasure(tx, of))) throw new NotRestricted();
      await queries.restrict(tx, of, false);
      await reconsiderFollowUps(tx, ctx, { clientId });
      await recordAudit(tx, ctx, { action: 'clients.end-restriction', recordId: clientId });
    });
  }

  private async beginErasure(
    tx: EntityManager,
    ctx: TenantContext,
    of: { studioId: string; clientId: string },
    rightsRequestId: string,
  ): Promise<void> {
    if ((await findChoice(tx, of.studioId)) === null) throw new RetentionUndecided();
    const booked = await queries.bookedVisits(tx, of);
    if (booked.length > 0) throw new VisitsBooked(booked);
    await onlyKeep(tx, ctx, of, 'the client is to be erased');
    await orderJob(tx, { studioId: of.studioId, job: 'erase-person', payload: { rightsRequestId } });
  }

  private async step(
    ctx: TenantContext,
    { id, version, to }: { id: string; version: number; to: RightsRequestState },
    work: (tx: EntityManager, request: RightsRequest) => Promise<Fields>,
  ): Promise<RightsRequestResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const request = found(await queries.findRequestForUpdate(tx, key));
      // What the worker carries out is not for a person to end.
      if (request.state === 'under_way' || !following[request.state].includes(to)) {
        throw new RightsStepImpossible(request.state);
      }
      const fields: Fields = { state: to, ...(await work(tx, request)) };
      const decided = fields.state !== 'identity_checked';
      const written = { ...fields, ...(decided && { decidedBy: ctx.userId as string }) };
      if (!(await queries.updateRequest(tx, { ...key, version }, written))) throw new StaleVersion();
      if (decided) await closeTask(tx, { ...key, kind: 'rights_request', subjectId: id });
      const action = `rights-requests.${(fields.state as string).replaceAll('_', '-')}`;
      await recordAudit(tx, ctx, { action, recordId: id, fields: [request.kind] });
      return read(tx, key);
    });
  }
}

/** From now on nothing is sent, counted or added. */
async function onlyKeep(
  tx: EntityManager,
  ctx: TenantContext,
  of: { studioId: string; clientId: string },
  because: string,
): Promise<void> {
  await queries.restrict(tx, of, true);
  await cancelMessages(tx, { ...of, because });
  await reconsiderFollowUps(tx, ctx, { clientId: of.clientId });
  await recordAudit(tx, ctx, { action: 'clients.restrict', recordId: of.clientId });
}

async function read(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<RightsRequestResponse> {
  const request = found(await queries.findRequest(tx, key));
  const parts = await queries.listParts(tx, { studioId: key.studioId, requestIds: [key.id] });
  return RightsRequestResponse.of(request, parts.get(key.id) ?? []);
}
