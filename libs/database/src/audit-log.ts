import type { EntityManager } from 'typeorm';
import { AuditEntry } from './entities/audit-entry.js';
import type { TenantContext } from './tenant-context.js';

/** Write down who did what to which record, in the transaction that does it. Field names only, never values. */
export async function recordAudit(
  tx: EntityManager,
  ctx: TenantContext,
  entry: { action: string; recordId: string; fields?: readonly string[] },
): Promise<void> {
  await tx.insert(AuditEntry, {
    studioId: ctx.studioId,
    userId: ctx.userId,
    requestId: ctx.requestId,
    action: entry.action,
    recordId: entry.recordId,
    fields: [...(entry.fields ?? [])],
  });
}
