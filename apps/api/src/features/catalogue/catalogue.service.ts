import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import {
  ServiceResponse,
  type CreateServiceRequest,
  type ServicePage,
  type UpdateServiceRequest,
} from './catalogue.dto.js';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, StaleVersion } from '../../http/problem.js';
import { taxRatesToday } from '../accounts/index.js';
import { NameTaken } from './catalogue.errors.js';
import * as queries from './catalogue.queries.js';

@Injectable()
export class CatalogueService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateServiceRequest): Promise<ServiceResponse> {
    const { studioId } = ctx;
    return nameOnce(() =>
      this.transaction.runOnce(ctx, async (tx) => {
        const id = await queries.insertService(tx, studioId, columnsOf(request));
        await recordAudit(tx, ctx, {
          action: 'services.create',
          recordId: id,
          fields: Object.keys(request),
        });
        return this.one(tx, studioId, id);
      }),
    );
  }

  async list(ctx: TenantContext, query: PageQuery): Promise<ServicePage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    return this.transaction.run(ctx, async (tx) => {
      const rates = await taxRatesToday(tx, ctx.studioId);
      const { items, next } = pageOf(await queries.listServices(tx, page), limit);
      return { items: items.map((row) => ServiceResponse.of(row, rates)), next };
    });
  }

  async get(ctx: TenantContext, id: string): Promise<ServiceResponse> {
    return this.transaction.run(ctx, (tx) => this.one(tx, ctx.studioId, id));
  }

  async update(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateServiceRequest,
  ): Promise<ServiceResponse> {
    const { studioId } = ctx;
    const { retired, ...fields } = request;
    return nameOnce(() =>
      this.transaction.run(ctx, async (tx) => {
        const before = await this.one(tx, studioId, id);
        const key = { studioId, id, version };
        if (!(await queries.updateService(tx, key, columnsOf(fields), retired))) throw new StaleVersion();
        const after = await this.one(tx, studioId, id);
        await recordAudit(tx, ctx, {
          ...{ action: 'services.update', recordId: id, fields: Object.keys(request), before, after },
        });
        return after;
      }),
    );
  }

  private async one(tx: EntityManager, studioId: string, id: string): Promise<ServiceResponse> {
    const row = found(await queries.findService(tx, studioId, id));
    return ServiceResponse.of(row, await taxRatesToday(tx, studioId));
  }
}

/** The price is one thing to the caller and two columns to the table. */
function columnsOf({ price, ...fields }: Partial<CreateServiceRequest>): queries.ServiceFields {
  if (price === undefined) return fields;
  return { ...fields, priceMinor: price?.amountMinor ?? null, currency: price?.currency ?? null };
}

async function nameOnce<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw violates(error, 'services_name_once') ? new NameTaken() : error;
  }
}
