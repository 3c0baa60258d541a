import { Injectable } from '@nestjs/common';
import {
  cancelMessages,
  recordAudit,
  TenantTransaction,
  violates,
  type ConsentKind,
  type TenantContext,
} from '@studio/database';
import type { Readable } from 'node:stream';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, NotFound, StaleVersion } from '../../http/problem.js';
import { clientsCsv } from './client-export.js';
import {
  ConsentResponse,
  type ClientPage,
  type ClientResponse,
  type CreateClientRequest,
  type GiveConsentRequest,
  type LikelyDuplicateResponse,
  type ListClientsQuery,
  type UpdateClientRequest,
} from './clients.dto.js';
import { reconsiderFollowUps } from '../follow-ups/index.js';
import { ConsentStands, GuardianIsNoAdult } from './clients.errors.js';
import * as queries from './clients.queries.js';
import { requireClient, requireOwnRecord } from './index.js';
import { consentingGuardian } from './consenting-guardian.js';
import { e164 } from './phone-number.js';

@Injectable()
export class ClientsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateClientRequest): Promise<ClientResponse> {
    return this.transaction.runOnce(ctx, async (tx) => {
      await checkGuardian(tx, { studioId: ctx.studioId, id: null }, request);
      const id = await queries.insertClient(tx, ctx.studioId, columnsOf(request));
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
        tag: query.tag ?? null,
        after: query.after ?? null,
        limit: limit + 1,
      }),
    );
    return pageOf(rows, limit);
  }

  /** Who took everybody's data out of the house is written down before the first row leaves. */
  async exportCsv(ctx: TenantContext): Promise<Readable> {
    await this.transaction.run(ctx, (tx) =>
      recordAudit(tx, ctx, { action: 'clients.export', recordId: ctx.studioId }),
    );
    return clientsCsv(this.transaction, ctx);
  }

  async update(
    ctx: TenantContext,
    id: string,
    version: number,
    request: UpdateClientRequest,
  ): Promise<ClientResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      await requireOwnRecord(tx, key.studioId, id);
      await checkGuardian(tx, key, request);
      const before = found(await queries.findClient(tx, key));
      if (!(await queries.updateClient(tx, { ...key, version }, columnsOf(request))))
        throw new StaleVersion();
      if (request.doNotContact !== undefined) await reconsiderFollowUps(tx, ctx, { clientId: id });
      const after = found(await queries.findClient(tx, key));
      const fields = Object.keys(request);
      await recordAudit(tx, ctx, { action: 'clients.update', recordId: id, fields, before, after });
      return after;
    });
  }

  async likelyDuplicates(ctx: TenantContext, id: string): Promise<LikelyDuplicateResponse[]> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.read(ctx, async (sql) => {
      found(await queries.findClient(sql, key));
      return queries.listLikelyDuplicates(sql, key);
    });
  }

  async giveConsent(
    ctx: TenantContext,
    clientId: string,
    request: GiveConsentRequest,
  ): Promise<ConsentResponse> {
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const { studioId } = ctx;
        await requireClient(tx, studioId, clientId);
        const guardianId = await consentingGuardian(tx, { studioId, clientId });
        const takenBy = ctx.userId as string;
        const row = await queries.insertConsent(tx, { studioId, clientId, takenBy, guardianId, ...request });
        await reconsiderFollowUps(tx, ctx, { clientId });
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
      await requireOwnRecord(tx, studioId, clientId);
      if (!(await queries.withdrawConsent(tx, { studioId, clientId, kind }, ctx.userId))) {
        throw new NotFound();
      }
      if (kind === 'contact') await cancelMessages(tx, { studioId, clientId, because: 'consent withdrawn' });
      await reconsiderFollowUps(tx, ctx, { clientId });
      await recordAudit(tx, ctx, { action: 'clients.withdraw-consent', recordId: clientId, fields: [kind] });
    });
  }
}

/** The number is kept as it was told, and in the form two can be compared by. */
function columnsOf<Fields extends UpdateClientRequest>(
  fields: Fields,
): Fields & { phoneE164?: string | null } {
  return { ...fields, ...(fields.phone !== undefined && { phoneE164: e164(fields.phone) }) };
}

async function checkGuardian(
  tx: EntityManager,
  key: { studioId: string; id: string | null },
  { guardianId }: UpdateClientRequest,
): Promise<void> {
  if (guardianId == null) return;
  const guardian = { studioId: key.studioId, id: guardianId };
  if (guardianId === key.id || (await queries.isMinor(tx, guardian))) throw new GuardianIsNoAdult();
}
