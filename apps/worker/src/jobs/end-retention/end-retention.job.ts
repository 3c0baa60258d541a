import {
  dropAuditMonths,
  finishOrder,
  letAuditMonthsGo,
  prepareAuditMonths,
  readClock,
  type TenantTransaction,
} from '@studio/database';
import { auditKeptFrom } from '@studio/retention';
import { personExportKey, type ObjectStorage } from '@studio/storage';
import type { JobHandler, Order } from '../../order.js';
import { listDueRequests } from '../erase-person/erase-person.queries.js';
import type { PersonErasure } from '../erase-person/person-erasure.js';
import { listExpiredExports, markExpired } from './end-retention.queries.js';

/** Months of the audit log that are made ahead: so long may no worker run. */
const monthsAhead = 3;

export class EndRetentionJob implements JobHandler<'end-retention'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
    private readonly erasure: PersonErasure,
  ) {}

  async handle({ studioId, outboxId }: Order<'end-retention'>, signal: AbortSignal): Promise<void> {
    const { now, requestIds, exportIds } = await this.transaction.run({ studioId }, async (tx) => {
      const now = await readClock(tx);
      const requestIds = await listDueRequests(tx, studioId);
      return { now, requestIds, exportIds: await listExpiredExports(tx, { studioId, now }) };
    });
    for (const requestId of requestIds) await this.erasure.carryOut({ studioId, requestId }, signal);
    for (const id of exportIds) {
      await this.storage.delete(personExportKey(studioId, id));
      await this.transaction.run({ studioId }, (tx) => markExpired(tx, { studioId, id }));
    }
    await this.keepAuditMonths(studioId, auditKeptFrom(now.toISOString().slice(0, 10)));
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }

  /** One after the other: each is of use without the next. */
  private async keepAuditMonths(studioId: string, before: string): Promise<void> {
    await this.transaction.run({ studioId }, (tx) => prepareAuditMonths(tx, monthsAhead));
    await this.transaction.run({ studioId }, (tx) => letAuditMonthsGo(tx, { studioId, before }));
    await this.transaction.run({ studioId }, (tx) => dropAuditMonths(tx, before));
  }
}
