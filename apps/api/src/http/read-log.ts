import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { AuditEntry, auditEntry, TenantTransaction } from '@studio/database';
import type { FastifyRequest } from 'fastify';
import { ApiError } from './problem.js';
import { askedOf } from './request-context.js';

class ReadsNotRecorded extends ApiError {
  readonly code = 'audit.behind';
  readonly status = 503;
  readonly title = 'Reads cannot be written down just now, and so are not given';
}

const writeEveryMs = 1_000;
const mostPending = 10_000;

/**
 * Writes down reads of health data, in blocks within a second, so that a read costs no write of its own. Reads that cannot
 * be written down are kept and tried again; when too many wait, nothing more is shown.
 */
@Injectable()
export class ReadLog implements OnApplicationShutdown {
  private pending: ReturnType<typeof auditEntry>[] = [];
  private writing: Promise<void> = Promise.resolve();
  private readonly timer = setInterval(() => void this.write(), writeEveryMs).unref();

  constructor(private readonly transaction: TenantTransaction) {}

  /** Before health data is read. */
  requireRoom(): void {
    if (this.pending.length >= mostPending) throw new ReadsNotRecorded();
  }

  /** Once it was given. Its id, and so its place in the log, is of now, whichever API writes first. */
  add(request: FastifyRequest): void {
    const { ctx, route, opened } = askedOf(request) ?? {};
    if (!ctx || route?.permission.health !== true) return;
    const action = `${opened === true ? 'opened-read' : 'read'}.${String(route.operation)}`;
    this.pending.push(auditEntry(ctx, { action, recordId: recordOf(request) ?? ctx.studioId }));
  }

  /** Write what waits; the next call waits for it. */
  write(): Promise<void> {
    this.writing = this.writing.then(() => this.writeNow());
    return this.writing;
  }

  async onApplicationShutdown(): Promise<void> {
    clearInterval(this.timer);
    await this.write();
  }

  private async writeNow(): Promise<void> {
    const taken = this.pending;
    this.pending = [];
    for (const studioId of new Set(taken.map((read) => read.studioId))) {
      const reads = taken.filter((read) => read.studioId === studioId);
      try {
        await this.transaction.run({ studioId }, (tx) => tx.insert(AuditEntry, reads));
      } catch {
        this.pending.push(...reads);
      }
    }
  }
}

/** The record an address names last, or the client a list is of. */
function recordOf({ params, query }: FastifyRequest): string | undefined {
  const inPath = Object.entries(params as Record<string, string>).filter(([name]) => name.endsWith('Id'));
  return inPath.at(-1)?.[1] ?? (query as { clientId?: string }).clientId;
}
