import { Inject, Injectable } from '@nestjs/common';
import type { ApiConfig } from '@studio/config';
import { openTask, orderMessage, recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { ApiConfigToken } from '../../http/http.module.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { requireKnownClient } from '../clients/index.js';
import type {
  ListRecordOpeningsQuery,
  OpenRecordRequest,
  RecordOpeningPage,
  RecordOpeningResponse,
} from './record-openings.dto.js';
import { NothingToOpen } from './record-openings.errors.js';
import * as queries from './record-openings.queries.js';

@Injectable()
export class RecordOpeningsService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  /** The owners are told at once, by mail and by a task; an owner who opens a record, too. */
  async open(
    ctx: TenantContext,
    clientId: string,
    { ground, reason }: OpenRecordRequest,
  ): Promise<RecordOpeningResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      if (!(await queries.isRestricted(tx, { studioId, clientId }))) throw new NothingToOpen();
      const openedBy = ctx.userId as string;
      const id = await queries.insertOpening(tx, { studioId, clientId, openedBy, ground, reason });
      const opening = (
        await queries.listOpenings(tx, { studioId, id, limit: 1 })
      )[0] as RecordOpeningResponse;
      await openTask(tx, { studioId, clientId, kind: 'record_opened', role: 'owner', subjectId: id });
      const data = { openedBy: opening.openedByName, link: `${this.config.publicUrl}/v1/record-openings` };
      for (const userId of await queries.listOwnerIds(tx, studioId)) {
        await orderMessage(tx, { studioId, userId, template: 'record_opened', subjectId: id, data });
      }
      await recordAudit(tx, ctx, { action: 'record-openings.open', recordId: clientId, fields: [ground] });
      return opening;
    });
  }

  async list(ctx: TenantContext, query: ListRecordOpeningsQuery): Promise<RecordOpeningPage> {
    const limit = pageSize(query);
    const { studioId } = ctx;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listOpenings(sql, { ...query, studioId, limit: limit + 1 }),
    );
    return pageOf(rows, limit);
  }
}
