import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  TenantTransaction,
  violates,
  type ConsentKind,
  type TenantContext,
} from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, NotFound, StaleVersion } from '../../http/problem.js';
import {
  ConsentResponse,
  type ClientPage,
  type ClientResponse,
  type CreateClientRequest,
  type GiveConsentRequest,
  type ListClientsQuery,
  type UpdateClientRequest,
} from './clients.dto.js';
import { ConsentStands } from './clients.errors.js';
import * as queries from './clients.queries.js';

@Injectable()
export class ClientsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateClientRequest): Promise<ClientResponse> {
    return this.transaction.run(ctx, async (tx) => {
      const id = await queries.insertClient(tx, ctx.studioId, request);
      await recordAudit(tx, ctx, { action: 'clients.create', recordId: id, fields: Object.keys(request) });
      return found(await queries.findClient(tx, { studioId: ctx.studioId, id }));
    });
  }

  async get(ctx: TenantContext, id: string): Promise<ClientResponse> {
    return found(
      await this.transaction.read(ctx, (sql) => queries.findClient(sql, { studioId: ctx.studioId, id })),
    );
  }

  async list(ctx: TenantContext, query: ListClientsQuery): Promise<ClientPage> {
    const limit = pageSize(query);
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listClients(sql, {
        studioId: ctx.studioId,
        name: query.name ?? null,
        after: query.after ?? null,
        limit: limit + 1,
      }),
    );
    return pageOf(rows, limit);
  }

  async update(ctx: TenantContext, id: string, request: UpdateClientRequest): Promise<ClientResponse> {
    const { version, ...fields } = request;
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      found(await queries.findClient(tx, key));
      if (!(await queries.updateClient(tx, { ...key, version }, fields))) throw new StaleVersion();
      await recordAudit(tx, ctx, { action: 'clients.update', recordId: id, fields: Object.keys(fields) });
      return found(await queries.findClient(tx, key));
    });
  }

  async giveConsent(
    ctx: TenantContext,
    clientId: string,
    request: GiveConsentRequest,
  ): Promise<ConsentResponse> {
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const { studioId } = ctx;
        found(await queries.findClient(tx, { studioId, id: clientId }));
        const takenBy = ctx.userId as string;
        const row = await queries.insertConsent(tx, { studioId, clientId, takenBy, ...request });
        await recordAudit(tx, ctx, { action: 'clients.consent', recordId: clientId, fields: [request.kind] });
        return ConsentResponse.of(row);
      });
    } catch (error) {
      if (violates(error, 'client_consents_one_standing')) throw new ConsentStands();
      throw error;
    }
  }

  async listConsents(ctx: TenantContext, clientId: string): Promise<ConsentResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      found(await queries.findClient(tx, { studioId, id: clientId }));
      const rows = await queries.listConsents(tx, { studioId, clientId });
      return rows.map((row) => ConsentResponse.of(row));
    });
  }

  async withdrawConsent(ctx: TenantContext, clientId: string, kind: ConsentKind): Promise<void> {
    const { studioId } = ctx;
    await this.transaction.run(ctx, async (tx) => {
      if ((await queries.withdrawConsent(tx, { studioId, clientId, kind }, ctx.userId)) === null)
        throw new NotFound();
      await recordAudit(tx, ctx, { action: 'clients.withdraw-consent', recordId: clientId, fields: [kind] });
    });
  }
}
