import { Injectable } from '@nestjs/common';
import { orderMessage, recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { messageTemplates } from '@studio/messages';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { requireClient } from '../clients/index.js';
import type { ListMessagesQuery, MessagePage, MessageResponse } from './messages.dto.js';
import { LinkForgotten, messageActions, MessageNotPossible } from './messages.errors.js';
import * as queries from './messages.queries.js';

@Injectable()
export class MessagesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, query: ListMessagesQuery): Promise<MessagePage> {
    const limit = pageSize(query);
    const { clientId = null, subjectId = null, state = null, template = null, after = null } = query;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listMessages(sql, {
        studioId: ctx.studioId,
        ...{ clientId, subjectId, state, template, after, limit: limit + 1 },
      }),
    );
    return pageOf(rows, limit);
  }

  async get(ctx: TenantContext, id: string): Promise<MessageResponse> {
    const key = { studioId: ctx.studioId, id };
    return found(await this.transaction.read(ctx, (sql) => queries.findMessage(sql, key)));
  }

  /** A new message with the same order: its own state, its own Message-ID. */
  async repeat(ctx: TenantContext, id: string): Promise<MessageResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      const { state, template, clientId, userId, subjectId, data, expiresAt } = found(
        await queries.findOrder(tx, { studioId, id }),
      );
      if (!(messageActions[state] as readonly string[]).includes('repeat'))
        throw new MessageNotPossible(state);
      const { placeholders, about } = messageTemplates[template];
      // A link that came with the order was forgotten when the message had come to its end.
      if (about === null && placeholders['link']?.required) throw new LinkForgotten();
      const repeatedId = await orderMessage(tx, {
        ...{ studioId, template, data, repeatsId: id },
        ...(clientId === null ? { userId: userId as string } : { clientId }),
        ...(subjectId !== null && { subjectId }),
        ...(expiresAt !== null && { expiresAt }),
      });
      await recordAudit(tx, ctx, { action: 'messages.repeat', recordId: repeatedId });
      return found(await queries.findMessage(tx, { studioId, id: repeatedId }));
    });
  }

  async cancel(ctx: TenantContext, id: string): Promise<MessageResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const { state } = found(await queries.findOrder(tx, key));
      if (state !== 'queued') throw new MessageNotPossible(state);
      await queries.markCancelled(tx, key, 'called off');
      await recordAudit(tx, ctx, { action: 'messages.cancel', recordId: id });
      return found(await queries.findMessage(tx, key));
    });
  }

  /** The desk has asked: the address is right after all. */
  async clearAddress(ctx: TenantContext, clientId: string): Promise<void> {
    const key = { studioId: ctx.studioId, clientId };
    await this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, ctx.studioId, clientId);
      await queries.clearAddress(tx, key);
      await recordAudit(tx, ctx, { action: 'clients.clear-address', recordId: clientId });
    });
  }
}
