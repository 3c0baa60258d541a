import { Injectable } from '@nestjs/common';
import {
  readClock,
  recordAudit,
  TenantTransaction,
  violates,
  type Shoe,
  type TenantContext,
} from '@studio/database';
import { footLengthOfSize } from '@studio/fit-math';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, StaleVersion } from '../../http/problem.js';
import { requireClient, requireKnownClient } from '../clients/index.js';
import {
  AlreadyMounted,
  BoltLineOffTheSole,
  FittedBeforeTheLast,
  SlotsOutOfOrder,
} from './equipment.errors.js';
import {
  withSizes,
  type CreateShoeRequest,
  type HardwarePage,
  type HardwareQuery,
  type MountHardwareRequest,
  type ShoeResponse,
  type UpdateShoeRequest,
} from './shoes.dto.js';
import * as queries from './shoes.queries.js';

interface Key {
  readonly clientId: string;
  readonly id: string;
}

@Injectable()
export class ShoesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, clientId: string, request: CreateShoeRequest): Promise<ShoeResponse> {
    const { studioId } = ctx;
    return withNamedFields(
      this.transaction.runOnce(ctx, async (tx) => {
        await requireClient(tx, studioId, clientId);
        const id = await queries.insertShoe(tx, { studioId, clientId, ...columnsOf(request) });
        await recordAudit(tx, ctx, { action: 'shoes.create', recordId: id });
        return withSizes(found(await queries.findShoeResponse(tx, { studioId, clientId, id })));
      }),
    );
  }

  async list(ctx: TenantContext, clientId: string): Promise<ShoeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return (await queries.listShoes(tx, { studioId, clientId })).map(withSizes);
    });
  }

  async get(ctx: TenantContext, key: Key): Promise<ShoeResponse> {
    const of = { studioId: ctx.studioId, ...key };
    return withSizes(found(await this.transaction.read(ctx, (sql) => queries.findShoeResponse(sql, of))));
  }

  async update(
    ctx: TenantContext,
    key: Key,
    version: number,
    request: UpdateShoeRequest,
  ): Promise<ShoeResponse> {
    const { archived, ...fields } = request;
    const now = await this.transaction.read(ctx, readClock);
    return this.change(ctx, key, version, Object.keys(request), {
      ...columnsOf(fields),
      ...(archived !== undefined && { archivedAt: archived ? now : null }),
    });
  }

  /** @throws AlreadyMounted while a part of that kind is there */
  async mount(
    ctx: TenantContext,
    key: Key,
    version: number,
    { side, kind, note, validFrom }: MountHardwareRequest,
  ): Promise<ShoeResponse> {
    return this.change(ctx, key, version, ['hardware'], {}, async (tx) => {
      const of = { studioId: ctx.studioId, shoeId: key.id, side, kind };
      if (await queries.findMounted(tx, of)) throw new AlreadyMounted();
      await queries.insertHardware(tx, {
        ...{ ...of, note: note ?? null, fittedBy: ctx.userId as string },
        validFrom: validFrom === undefined ? await readClock(tx) : new Date(validFrom),
      });
    });
  }

  async unmount(ctx: TenantContext, key: Key, version: number, hardwareId: string): Promise<ShoeResponse> {
    return this.change(ctx, key, version, ['hardware'], {}, async (tx) => {
      const of = { studioId: ctx.studioId, shoeId: key.id, id: hardwareId };
      const { studioId, id, validFrom } = found(await queries.findMounted(tx, of));
      const validTo = await readClock(tx);
      if (validTo < validFrom) throw new FittedBeforeTheLast();
      await queries.removeHardware(tx, { studioId, id }, { validTo, removedBy: ctx.userId as string });
    });
  }

  async history(ctx: TenantContext, key: Key, query: HardwareQuery): Promise<HardwarePage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const rows = await this.transaction.read(ctx, async (sql) => {
      found(await queries.findShoeResponse(sql, { studioId, ...key }));
      const { after = null } = query;
      return queries.listHardware(sql, { studioId, shoeId: key.id, after, limit: limit + 1 });
    });
    return pageOf(rows, limit);
  }

  private async change(
    ctx: TenantContext,
    key: Key,
    version: number,
    names: string[],
    fields: Partial<Shoe>,
    work: (tx: EntityManager) => Promise<void> = () => Promise.resolve(),
  ): Promise<ShoeResponse> {
    const of = { studioId: ctx.studioId, ...key };
    const row = { studioId: ctx.studioId, id: key.id };
    return withNamedFields(
      this.transaction.run(ctx, async (tx) => {
        const before = found(await queries.findShoeResponse(tx, of));
        // The version first: it holds the row, so that only one of two changes goes on.
        if (!(await queries.updateShoe(tx, { ...row, version }, fields))) throw new StaleVersion();
        await work(tx);
        const after = found(await queries.findShoeResponse(tx, of));
        await recordAudit(tx, ctx, {
          ...{ action: 'shoes.update', recordId: key.id, fields: names },
          ...{ before: withSizes(before), after: withSizes(after) },
        });
        return withSizes(after);
      }),
    );
  }
}

/** What the database keeps together is told by its field. */
async function withNamedFields<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (violates(error, 'shoes_slots_in_order')) throw new SlotsOutOfOrder();
    throw violates(error, 'shoes_bolt_line_on_sole') ? new BoltLineOffTheSole() : error;
  }
}

/** A marked size tells the foot's length, unless that is told itself. */
function columnsOf({ markedSize, footLengthMm, ...fields }: Partial<CreateShoeRequest>): Partial<Shoe> {
  const length =
    footLengthMm ?? (markedSize ? footLengthOfSize(markedSize.system, markedSize.size) : footLengthMm);
  return {
    ...fields,
    ...(length !== undefined && { footLengthMm: length }),
    ...(markedSize !== undefined && {
      sizeSystem: markedSize?.system ?? null,
      size: markedSize?.size ?? null,
    }),
  };
}
