import { Injectable } from '@nestjs/common';
import {
  bikePartKinds,
  readClock,
  recordAudit,
  TenantTransaction,
  type Bike,
  type BikePartKind,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, NotFound, StaleVersion } from '../../http/problem.js';
import { requireClient, requireKnownClient } from '../clients/index.js';
import type {
  BikeResponse,
  CreateBikeRequest,
  FittedPartPage,
  FittedPartRequest,
  FittedPartsQuery,
  UpdateBikeRequest,
} from './bikes.dto.js';
import * as queries from './bikes.queries.js';
import { FittedBeforeTheLast } from './equipment.errors.js';

interface Key {
  readonly clientId: string;
  readonly id: string;
}

@Injectable()
export class BikesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, clientId: string, request: CreateBikeRequest): Promise<BikeResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      const id = await queries.insertBike(tx, { studioId, clientId, ...columnsOf(request) });
      await recordAudit(tx, ctx, { action: 'bikes.create', recordId: id });
      return found(await queries.findBikeResponse(tx, { studioId, clientId, id }));
    });
  }

  async list(ctx: TenantContext, clientId: string): Promise<BikeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return queries.listBikes(tx, { studioId, clientId });
    });
  }

  async get(ctx: TenantContext, key: Key): Promise<BikeResponse> {
    const of = { studioId: ctx.studioId, ...key };
    return found(await this.transaction.read(ctx, (sql) => queries.findBikeResponse(sql, of)));
  }

  async update(
    ctx: TenantContext,
    key: Key,
    version: number,
    request: UpdateBikeRequest,
  ): Promise<BikeResponse> {
    return this.change(ctx, key, version, Object.keys(request), async (tx) => {
      const { archived, ...fields } = request;
      const now = await readClock(tx);
      return {
        ...columnsOf(fields),
        ...(archived !== undefined && { archivedAt: archived ? now : null }),
      };
    });
  }

  /** The part that was in use before stays in the history. Cranks are the bike's crank length, too. */
  async fit(
    ctx: TenantContext,
    key: Key,
    kind: BikePartKind,
    version: number,
    request: FittedPartRequest,
  ): Promise<BikeResponse> {
    return this.change(ctx, key, version, [kind], async (tx) => {
      const facts = factsOf(kind, request);
      const { description = null } = request;
      const validFrom = request.validFrom === undefined ? await readClock(tx) : new Date(request.validFrom);
      await removeInUse(tx, ctx, key.id, kind, validFrom);
      await queries.insertPart(tx, {
        ...{ studioId: ctx.studioId, bikeId: key.id, kind, description, facts, validFrom },
        fittedBy: ctx.userId as string,
      });
      return request.cranks ? { crankLengthMm: request.cranks.lengthMm } : {};
    });
  }

  async remove(ctx: TenantContext, key: Key, kind: BikePartKind, version: number): Promise<BikeResponse> {
    return this.change(ctx, key, version, [kind], async (tx) => {
      if (!(await removeInUse(tx, ctx, key.id, kind, await readClock(tx)))) throw new NotFound();
      return {};
    });
  }

  async history(ctx: TenantContext, key: Key, query: FittedPartsQuery): Promise<FittedPartPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const rows = await this.transaction.read(ctx, async (sql) => {
      found(await queries.findBikeResponse(sql, { studioId, ...key }));
      const { after = null } = query;
      return queries.listParts(sql, { studioId, bikeId: key.id, after, limit: limit + 1 });
    });
    return pageOf(rows, limit);
  }

  private async change(
    ctx: TenantContext,
    key: Key,
    version: number,
    fields: string[],
    work: (tx: EntityManager) => Promise<Partial<Bike>>,
  ): Promise<BikeResponse> {
    const of = { studioId: ctx.studioId, ...key };
    const row = { studioId: ctx.studioId, id: key.id };
    return this.transaction.run(ctx, async (tx) => {
      const before = found(await queries.findBikeResponse(tx, of));
      // The version first: it holds the row, so that only one of two changes goes on.
      if (!(await queries.updateBike(tx, { ...row, version }, {}))) throw new StaleVersion();
      const changed = await work(tx);
      if (Object.keys(changed).length > 0) await queries.setBike(tx, row, changed);
      const after = found(await queries.findBikeResponse(tx, of));
      await recordAudit(tx, ctx, { action: 'bikes.update', recordId: key.id, fields, before, after });
      return after;
    });
  }
}

/** @returns whether one was in use */
async function removeInUse(
  tx: EntityManager,
  ctx: TenantContext,
  bikeId: string,
  kind: BikePartKind,
  validTo: Date,
): Promise<boolean> {
  const before = await queries.findPartInUse(tx, { studioId: ctx.studioId, bikeId, kind });
  if (!before) return false;
  if (validTo < before.validFrom) throw new FittedBeforeTheLast();
  const { studioId, id } = before;
  await queries.removePart(tx, { studioId, id }, { validTo, removedBy: ctx.userId as string });
  return true;
}

/** @throws InvalidRequest unless the measures of just this kind are given */
function factsOf(kind: BikePartKind, request: FittedPartRequest): object {
  const others = bikePartKinds.filter((other) => other !== kind && request[other] !== undefined);
  const problems = others.map((field) => ({ field, message: `must be left out for ${kind}` }));
  const facts = request[kind];
  if (facts === undefined) problems.unshift({ field: kind, message: 'is needed' });
  if (facts === undefined || problems.length > 0) throw new InvalidRequest(problems);
  return facts;
}

function columnsOf({ frame, ...fields }: Partial<CreateBikeRequest>): Partial<Bike> {
  if (frame === undefined) return fields;
  const { stackMm = null, reachMm = null, headTubeAngleDeg = null } = frame ?? {};
  return { ...fields, stackMm, reachMm, headTubeAngleDeg };
}
