import { finishOrder, studioClock, type TenantTransaction } from '@studio/database';
import { processingActivities } from '@studio/retention';
import { personExportKey, type ObjectStorage } from '@studio/storage';
import { Readable } from 'node:stream';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import { copyPage } from './copy-page.js';
import * as queries from './export-person.queries.js';
import { filesOf, type CopiedFile, type PersonCopy } from './person-copy.js';
import { zipped, type ZipEntry } from './zipped.js';

interface Read {
  readonly tables: Awaited<ReturnType<typeof queries.readRecords>>;
  readonly studio: string;
  readonly madeAt: Date;
}

/** Everything that is kept of a person in one archive: JSON, all files, and a page to read. */
export class ExportPersonJob implements JobHandler<'export-person'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'export-person'>, signal: AbortSignal): Promise<void> {
    const key = { studioId, id: payload.personExportId };
    const read = await this.transaction.run({ studioId }, async (tx): Promise<Read | null> => {
      const row = await queries.findExport(tx, key);
      if (row?.state !== 'ordered') return null;
      const { name: studio, now: madeAt } = await studioClock(tx, studioId);
      return { studio, madeAt, tables: await queries.readRecords(tx, row) };
    });
    if (read) {
      const archive = Readable.from(zipped(this.entries(studioId, read, signal)), { objectMode: false });
      await this.storage.put(personExportKey(studioId, key.id), archive, 'application/zip');
    }
    await this.transaction.run({ studioId }, async (tx) => {
      if (read) await queries.markReady(tx, key);
      await finishOrder(tx, { studioId, outboxId });
    });
  }

  gaveUp(tx: EntityManager, { studioId, payload }: Order<'export-person'>): Promise<void> {
    return queries.markFailed(tx, { studioId, id: payload.personExportId });
  }

  private async *entries(
    studioId: string,
    { tables, studio, madeAt }: Read,
    signal: AbortSignal,
  ): AsyncGenerator<ZipEntry> {
    const files: CopiedFile[] = [];
    for (const file of filesOf(studioId, tables)) {
      signal.throwIfAborted();
      const stored = await this.storage.get(file.key);
      if (!stored) continue;
      files.push(file);
      yield { path: file.path, content: stored.content };
    }
    const copy: PersonCopy = {
      format: 'person-export',
      version: 1,
      madeAt: madeAt.toISOString(),
      studio,
      processing: processingActivities,
      records: Object.fromEntries(tables.map(({ name, records }) => [name, records])),
      files: files.map(({ path, mediaType, of }) => ({ path, mediaType, of })),
    };
    yield { path: 'data.json', content: [Buffer.from(JSON.stringify(copy, null, 2))] };
    yield { path: 'index.html', content: [Buffer.from(copyPage(copy, tables))] };
  }
}
