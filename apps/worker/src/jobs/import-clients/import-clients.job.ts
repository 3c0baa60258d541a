import { finishOrder, likelyClients, recordAudit, type TenantTransaction } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import * as queries from './import-clients.queries.js';

/** Rows a transaction: what is lost when the worker is killed, and done again. */
const batch = 100;

/**
 * Takes on the clients of a list. A row is marked in the transaction that writes its client, so a list begun and not
 * finished goes on where it stopped, and no row is taken on twice.
 */
export class ImportClientsJob implements JobHandler<'import-clients'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId, payload }: Order<'import-clients'>, signal: AbortSignal): Promise<void> {
    const key = { studioId, id: payload.clientImportId };
    let more = true;
    while (more) {
      signal.throwIfAborted();
      more = await this.transaction.run({ studioId }, async (tx) => {
        // Two workers with the same order take turns.
        const orderedBy = await queries.lockOrdered(tx, key);
        if (orderedBy !== null) {
          const rows = await queries.listReady(tx, { ...key, limit: batch });
          for (const row of rows) await takeOn(tx, { studioId, orderedBy, outboxId }, row);
          if (rows.length === batch) return true;
          await queries.markDone(tx, key);
        }
        await finishOrder(tx, { studioId, outboxId });
        return false;
      });
    }
  }
}

async function takeOn(
  tx: EntityManager,
  by: { studioId: string; orderedBy: string; outboxId: string },
  row: queries.ReadyRow,
): Promise<void> {
  const { studioId } = by;
  const key = { studioId, id: row.id };
  if (row.decision === 'leave_out') return queries.leaveOut(tx, key, null);
  if (row.decision === 'unless_duplicate') {
    const likely = (await likelyClients(tx, studioId, [{ key: row.id, fields: row.fields }])).get(row.id);
    if (likely !== undefined) return queries.leaveOut(tx, key, likely);
  }
  const clientId = await queries.insertClient(tx, studioId, row.fields);
  await queries.markImported(tx, key, clientId);
  const ctx = { studioId, userId: by.orderedBy, roles: [], requestId: by.outboxId };
  await recordAudit(tx, ctx, {
    action: 'clients.import',
    recordId: clientId,
    fields: Object.keys(row.fields),
  });
}
