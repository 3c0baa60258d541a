import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  sameClientIds,
  TenantTransaction,
  violates,
  type TenantContext,
} from '@studio/database';
import { NotFound, UnknownReference } from '../../http/problem.js';
import type { ClientLinkResponse, LinkClientRequest } from './client-links.dto.js';
import * as queries from './client-links.queries.js';
import { LinkedAlready, LinkedToItself } from './clients.errors.js';
import { requireClient, requireKnownClient } from './index.js';

@Injectable()
export class ClientLinksService {
  constructor(private readonly transaction: TenantTransaction) {}

  async link(
    ctx: TenantContext,
    clientId: string,
    { otherClientId, kind }: LinkClientRequest,
  ): Promise<ClientLinkResponse[]> {
    const { studioId } = ctx;
    const linkedBy = ctx.userId as string;
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        await requireClient(tx, studioId, clientId);
        const others = await sameClientIds(tx, { studioId, clientId: otherClientId });
        if (others.length === 0) throw new UnknownReference('otherClientId');
        if (others.includes(clientId)) throw new LinkedToItself();
        await requireClient(tx, studioId, otherClientId);
        const row = { studioId, clientId, otherId: otherClientId, kind, linkedBy };
        const recordId = await queries.insertLink(tx, row);
        await recordAudit(tx, ctx, { action: 'client-links.create', recordId });
        return queries.listLinks(tx, { studioId, clientId });
      });
    } catch (error) {
      if (violates(error, 'client_links_once')) throw new LinkedAlready();
      throw error;
    }
  }

  async list(ctx: TenantContext, clientId: string): Promise<ClientLinkResponse[]> {
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      await requireKnownClient(sql, studioId, clientId);
      return queries.listLinks(sql, { studioId, clientId });
    });
  }

  async unlink(ctx: TenantContext, id: string): Promise<void> {
    await this.transaction.run(ctx, async (tx) => {
      if (!(await queries.deleteLink(tx, { studioId: ctx.studioId, id }))) throw new NotFound();
      await recordAudit(tx, ctx, { action: 'client-links.delete', recordId: id });
    });
  }
}
