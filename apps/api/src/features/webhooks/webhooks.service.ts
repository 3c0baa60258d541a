import { Inject, Injectable } from '@nestjs/common';
import type { ApiConfig } from '@studio/config';
import {
  closeTask,
  recordAudit,
  TenantTransaction,
  type TenantContext,
  type WebhookEndpoint,
} from '@studio/database';
import { checkedAddresses, endpointSecret, ForbiddenTarget, readTarget } from '@studio/webhooks';
import type { EntityManager } from 'typeorm';
import { ApiConfigToken } from '../../http/http.module.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import {
  WebhookDeliveryResponse,
  WebhookEndpointResponse,
  type CreateWebhookEndpointRequest,
  type ListDeliveriesQuery,
  type UpdateWebhookEndpointRequest,
  type WebhookDeliveryPage,
  type WebhookEndpointWithSecretResponse,
} from './webhooks.dto.js';
import { ReplayImpossible, TooManyEndpoints } from './webhooks.errors.js';
import * as queries from './webhooks.queries.js';

const mostEndpoints = 20;

@Injectable()
export class WebhooksService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  async create(
    ctx: TenantContext,
    request: CreateWebhookEndpointRequest,
  ): Promise<WebhookEndpointWithSecretResponse> {
    const { studioId, userId } = ctx;
    await this.checkUrl(request.url);
    // The secret is worked out afterwards: an answer kept for a repeated request is kept without it.
    const created = await this.transaction.runOnce(ctx, async (tx) => {
      if ((await queries.countEndpoints(tx, studioId)) >= mostEndpoints) throw new TooManyEndpoints();
      const id = await queries.insertEndpoint(tx, { ...request, studioId, createdBy: userId as string });
      await recordAudit(tx, ctx, { action: 'webhooks.create', recordId: id, fields: Object.keys(request) });
      return WebhookEndpointResponse.of(await get(tx, { studioId, id }));
    });
    return { ...created, secret: this.secretOf(studioId, created.id, 1) };
  }

  async list(ctx: TenantContext): Promise<WebhookEndpointResponse[]> {
    const rows = await this.transaction.run(ctx, (tx) => queries.listEndpoints(tx, ctx.studioId));
    return rows.map((row) => WebhookEndpointResponse.of(row));
  }

  async get(ctx: TenantContext, id: string): Promise<WebhookEndpointResponse> {
    const key = { studioId: ctx.studioId, id };
    return WebhookEndpointResponse.of(await this.transaction.run(ctx, (tx) => get(tx, key)));
  }

  async update(
    ctx: TenantContext,
    id: string,
    version: number,
    { enabled, ...fields }: UpdateWebhookEndpointRequest,
  ): Promise<WebhookEndpointResponse> {
    const key = { studioId: ctx.studioId, id };
    if (fields.url !== undefined) await this.checkUrl(fields.url);
    return this.transaction.run(ctx, async (tx) => {
      const before = WebhookEndpointResponse.of(await get(tx, key));
      if (!(await queries.updateEndpoint(tx, { ...key, version }, fields, enabled))) throw new StaleVersion();
      if (enabled === true) await closeTask(tx, { ...key, kind: 'webhook_disabled', subjectId: id });
      const changed = [...Object.keys(fields), ...(enabled === undefined ? [] : ['enabled'])];
      const after = WebhookEndpointResponse.of(await get(tx, key));
      await recordAudit(tx, ctx, { action: 'webhooks.update', recordId: id, fields: changed, before, after });
      return after;
    });
  }

  async renewSecret(
    ctx: TenantContext,
    id: string,
    version: number,
  ): Promise<WebhookEndpointWithSecretResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      await get(tx, key);
      if (!(await queries.renewSecret(tx, { ...key, version }))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'webhooks.renew-secret', recordId: id });
      const row = await get(tx, key);
      const secret = this.secretOf(key.studioId, id, row.secretNumber);
      return { ...WebhookEndpointResponse.of(row), secret };
    });
  }

  async listDeliveries(
    ctx: TenantContext,
    endpointId: string,
    query: ListDeliveriesQuery,
  ): Promise<WebhookDeliveryPage> {
    const { studioId } = ctx;
    const { state = null, after = null } = query;
    const limit = pageSize(query);
    const rows = await this.transaction.run(ctx, async (tx) => {
      await get(tx, { studioId, id: endpointId });
      return queries.listDeliveries(tx, { studioId, endpointId, state, after, limit: limit + 1 });
    });
    return pageOf(
      rows.map((row) => WebhookDeliveryResponse.of(row)),
      limit,
    );
  }

  async replay(ctx: TenantContext, id: string): Promise<void> {
    const { studioId } = ctx;
    const key = { studioId, id };
    await this.transaction.run(ctx, async (tx) => {
      const delivery = found(await queries.findDeliveryForUpdate(tx, key));
      if (delivery.state === 'waiting') throw new ReplayImpossible('still_waiting');
      const endpoint = await get(tx, { studioId, id: delivery.endpointId });
      if (endpoint.disabledAt !== null) throw new ReplayImpossible('endpoint_disabled');
      await queries.deliverAgain(tx, key);
      await recordAudit(tx, ctx, { action: 'webhooks.replay', recordId: id });
    });
  }

  private secretOf(studioId: string, endpointId: string, number: number): string {
    return endpointSecret(this.config.webhookKey, { studioId, endpointId, number });
  }

  /** Asks the resolver, so it is done before any transaction; every delivery checks again. */
  private async checkUrl(url: string): Promise<void> {
    const rules = { local: this.config.localWebhooks };
    try {
      await checkedAddresses(readTarget(url, rules), rules);
    } catch (error) {
      if (!(error instanceof ForbiddenTarget)) throw error;
      throw new InvalidRequest([{ field: 'url', message: error.message }]);
    }
  }
}

async function get(tx: EntityManager, key: { studioId: string; id: string }): Promise<WebhookEndpoint> {
  return found(await queries.findEndpoint(tx, key));
}
