import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type Client, type TenantContext } from '@studio/database';
import { found, UnknownReference } from '../../http/problem.js';
import { reconsiderFollowUps } from '../follow-ups/index.js';
import type { ClientMergeResponse, MergeClientRequest } from './client-merges.dto.js';
import * as queries from './client-merges.queries.js';
import {
  ClientMerged,
  ClientRestricted,
  LaterMergeFirst,
  MergeImpossible,
  MergeUndone,
} from './clients.errors.js';
import { requireKnownClient } from './index.js';
import { fieldsMerged, fieldsUnmerged, type MergedFields } from './merge-fields.js';

@Injectable()
export class ClientMergesService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** The two are read as one from now on; what the surviving record lacks it gets from the other. */
  async merge(
    ctx: TenantContext,
    clientId: string,
    { mergedClientId }: MergeClientRequest,
  ): Promise<ClientMergeResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      if (clientId === mergedClientId) throw new MergeImpossible('names the client itself');
      const locked = await queries.lockClients(tx, { studioId, ids: [clientId, mergedClientId] });
      const surviving = standing(found(locked.get(clientId) ?? null));
      const other = locked.get(mergedClientId);
      if (!other) throw new UnknownReference('mergedClientId');
      const merged = standing(other);
      if (surviving.guardianId === merged.id || merged.guardianId === surviving.id) {
        throw new MergeImpossible('one is the guardian of the other');
      }
      const { before, after } = fieldsMerged(surviving, merged);
      await queries.writeFields(tx, surviving, after);
      const movedIds = await queries.pointTo(tx, { studioId, from: merged.id, to: surviving.id });
      const id = await queries.insertMerge(tx, {
        ...{ studioId, survivingId: surviving.id, mergedId: merged.id, movedIds },
        ...{ fieldsBefore: before, fieldsAfter: after, mergedBy: ctx.userId as string },
      });
      await reconsiderFollowUps(tx, ctx, { clientId });
      await recordAudit(tx, ctx, { action: 'clients.merge', recordId: clientId, fields: Object.keys(after) });
      await recordAudit(tx, ctx, { action: 'clients.merged', recordId: mergedClientId });
      return found(await queries.findMerge(tx, { studioId, id }));
    });
  }

  async list(ctx: TenantContext, clientId: string): Promise<ClientMergeResponse[]> {
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      await requireKnownClient(sql, studioId, clientId);
      return queries.listMerges(sql, { studioId, clientId });
    });
  }

  /** They were two after all. The last merge of a client is undone first, so that each finds what it left. */
  async undo(ctx: TenantContext, id: string): Promise<ClientMergeResponse> {
    const { studioId } = ctx;
    const key = { studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const merge = found(await queries.findMergeForUpdate(tx, key));
      if (merge.undoneAt !== null) throw new MergeUndone();
      const { survivingId, mergedId } = merge;
      const locked = await queries.lockClients(tx, { studioId, ids: [survivingId, mergedId] });
      const later = await queries.findLaterMerge(tx, merge);
      if (later !== null) throw new LaterMergeFirst(later);
      const surviving = found(locked.get(survivingId) ?? null);
      const [before, after] = [merge.fieldsBefore, merge.fieldsAfter] as [MergedFields, MergedFields];
      await queries.writeFields(tx, surviving, fieldsUnmerged(surviving, { before, after }));
      await queries.pointBack(tx, merge);
      await queries.markUndone(tx, key, ctx.userId as string);
      for (const recordId of [survivingId, mergedId]) {
        await reconsiderFollowUps(tx, ctx, { clientId: recordId });
        await recordAudit(tx, ctx, { action: 'clients.undo-merge', recordId });
      }
      return found(await queries.findMerge(tx, key));
    });
  }
}

/** @throws ClientMerged for one that was merged away, ClientRestricted for one that is only kept */
function standing(client: Client): Client {
  if (client.mergedInto !== null) throw new ClientMerged(client.mergedInto);
  if (client.restrictedAt !== null) throw new ClientRestricted();
  return client;
}
