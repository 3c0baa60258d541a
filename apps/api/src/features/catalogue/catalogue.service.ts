import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { found, StaleVersion } from '../../http/problem.js';
import { taxRatesToday } from '../accounts/index.js';
import { ServiceResponse, type CreateServiceRequest, type UpdateServiceRequest } from './catalogue.dto.js';
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

  async list(ctx: TenantContext): Promise<ServiceResponse[]> {
    return this.transaction.run(ctx, async (tx) => {
      const rates = await taxRatesToday(tx, ctx.studioId);
      return (await queries.listServices(tx, ctx.studioId)).map((row) => ServiceResponse.of(row, rates));
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
        found(await queries.findService(tx, studioId, id));
        const key = { studioId, id, version };
        if (!(await queries.updateService(tx, key, columnsOf(fields), retired))) throw new StaleVersion();
        await recordAudit(tx, ctx, {
          action: 'services.update',
          recordId: id,
          fields: Object.keys(request),
        });
        return this.one(tx, studioId, id);
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
