import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import type { ListNotesQuery, NotePage, NoteResponse, WriteNoteRequest } from './client-notes.dto.js';
import * as queries from './client-notes.queries.js';
import { requireClient, requireKnownClient } from './index.js';

@Injectable()
export class ClientNotesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async write(ctx: TenantContext, clientId: string, { text }: WriteNoteRequest): Promise<NoteResponse> {
    const { studioId } = ctx;
    const writtenBy = ctx.userId as string;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      const id = await queries.insertNote(tx, { studioId, clientId, text, correctsId: null, writtenBy });
      await recordAudit(tx, ctx, { action: 'client-notes.write', recordId: id });
      return queries.getNote(tx, { studioId, id });
    });
  }

  /** Stands beside the note, which stays as it was written. */
  async correct(ctx: TenantContext, noteId: string, { text }: WriteNoteRequest): Promise<NoteResponse> {
    const { studioId } = ctx;
    const writtenBy = ctx.userId as string;
    return this.transaction.runOnce(ctx, async (tx) => {
      const clientId = found(await queries.findNotedClient(tx, { studioId, id: noteId }));
      const row = { studioId, clientId, text, correctsId: noteId, writtenBy };
      const recordId = await queries.insertNote(tx, row);
      await recordAudit(tx, ctx, { action: 'client-notes.correct', recordId });
      return queries.getNote(tx, { studioId, id: noteId });
    });
  }

  async list(ctx: TenantContext, clientId: string, query: ListNotesQuery): Promise<NotePage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const { after = null } = query;
    return this.transaction.read(ctx, async (sql) => {
      await requireKnownClient(sql, studioId, clientId);
      return pageOf(await queries.listNotes(sql, { studioId, clientId, after, limit: limit + 1 }), limit);
    });
  }
}
