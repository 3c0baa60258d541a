import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { v7 as uuidv7 } from 'uuid';
import { AuditEntry } from '../entities/audit-entry.js';
import { canonical } from '../record-signatures/link.js';
import type { TenantContext } from '../tenant-context.js';

export interface Audited {
  /** For example `clients.update`. */
  readonly action: string;
  readonly recordId: string;
  readonly fields?: readonly string[];
  /** Values of the fields before and after: kept as hashes, so that a claim about them can be checked and nothing read. */
  readonly before?: object;
  readonly after?: object;
}

/** Write down who did what to which record, in the transaction that does it. Field names only, never values. */
export async function recordAudit(tx: EntityManager, ctx: TenantContext, entry: Audited): Promise<void> {
  await tx.insert(AuditEntry, auditEntry(ctx, entry));
}

/** As `recordAudit`, for several at once. */
export function auditEntry(ctx: TenantContext, entry: Audited): Omit<AuditEntry, 'createdAt' | 'sealedIn'> {
  const id = uuidv7();
  return {
    studioId: ctx.studioId,
    id,
    userId: ctx.userId,
    requestId: ctx.requestId,
    fromAddress: ctx.fromAddress ?? null,
    action: entry.action,
    recordId: entry.recordId,
    fields: [...(entry.fields ?? [])],
    beforeHash: entry.before ? hashOfValues(id, entry.before) : null,
    afterHash: entry.after ? hashOfValues(id, entry.after) : null,
  };
}

/** SHA-256 of values in canonical JSON, salted with the entry's id. */
export function hashOfValues(entryId: string, values: object): Buffer {
  return createHash('sha256')
    .update(`${entryId} ${canonical(values)}`)
    .digest();
}
