import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type Bench,
  type Room,
  type Site,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, StaleVersion } from '../../http/problem.js';
import type {
  BenchResponse,
  CreateBenchRequest,
  CreateRoomRequest,
  CreateSiteRequest,
  RoomResponse,
  SiteResponse,
} from './premises.dto.js';
import { NameTaken } from './premises.errors.js';
import * as queries from './premises.queries.js';

interface Requests {
  site: CreateSiteRequest;
  room: CreateRoomRequest;
  bench: CreateBenchRequest;
}
interface Responses {
  site: SiteResponse;
  room: RoomResponse;
  bench: BenchResponse;
}
const plural = { site: 'sites', room: 'rooms', bench: 'benches' } as const;

/** Sites, rooms and benches: three kinds of place, kept alike. */
@Injectable()
export class PremisesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create<Kind extends queries.PlaceKind>(
    ctx: TenantContext,
    kind: Kind,
    request: Requests[Kind],
  ): Promise<Responses[Kind]> {
    const { studioId } = ctx;
    return nameOnce(() =>
      this.transaction.runOnce(ctx, async (tx) => {
        const fields: queries.PlaceFields = { ...request };
        if (kind === 'site') fields.timeZone ??= await queries.timeZoneOfStudio(tx, studioId);
        const id = await queries.insertPlace(tx, kind, { studioId, ...fields });
        await recordAudit(tx, ctx, {
          action: `${plural[kind]}.create`,
          recordId: id,
          fields: Object.keys(request),
        });
        return this.read(tx, kind, { studioId, id });
      }),
    );
  }

  async list<Kind extends queries.PlaceKind>(
    ctx: TenantContext,
    kind: Kind,
    query: PageQuery,
  ): Promise<{ items: Responses[Kind][]; next: string | null }> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    const { items, next } = pageOf(
      await this.transaction.run(ctx, (tx) => queries.listPlaces(tx, kind, page)),
      limit,
    );
    return { items: items.map((row) => toResponse(row) as Responses[Kind]), next };
  }

  async update<Kind extends queries.PlaceKind>(
    ctx: TenantContext,
    kind: Kind,
    key: { id: string; version: number },
    request: Partial<Requests[Kind]>,
  ): Promise<Responses[Kind]> {
    const { studioId } = ctx;
    return nameOnce(() =>
      this.transaction.run(ctx, async (tx) => {
        const before = await this.read(tx, kind, { studioId, id: key.id });
        if (!(await queries.updatePlace(tx, kind, { studioId, ...key }, request))) throw new StaleVersion();
        const after = await this.read(tx, kind, { studioId, id: key.id });
        await recordAudit(tx, ctx, {
          ...{ action: `${plural[kind]}.update`, recordId: key.id, fields: Object.keys(request) },
          ...{ before, after },
        });
        return after;
      }),
    );
  }

  private async read<Kind extends queries.PlaceKind>(
    tx: EntityManager,
    kind: Kind,
    key: { studioId: string; id: string },
  ): Promise<Responses[Kind]> {
    return toResponse(found(await queries.findPlace(tx, kind, key))) as Responses[Kind];
  }
}

function toResponse({ studioId, createdAt, ...rest }: Site | Room | Bench): object {
  return rest;
}

async function nameOnce<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    const taken = Object.values(plural).some((table) => violates(error, `${table}_name_once`));
    throw taken ? new NameTaken() : error;
  }
}
