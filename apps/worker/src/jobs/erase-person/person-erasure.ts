import {
  eraseSigned,
  readClock,
  sameClientIds,
  type PersonCategory,
  type TenantTransaction,
} from '@studio/database';
import { fileKeys, fitSheetKeys, personExportKey, type ObjectStorage } from '@studio/storage';
import type { EntityManager } from 'typeorm';
import { GiveUp } from '../../order.js';
import * as queries from './erase-person.queries.js';
import type { Person, StoredIds } from './erase-person.queries.js';
import { keptParts } from './kept-parts.js';

interface Due {
  readonly person: Person;
  readonly categories: readonly PersonCategory[];
  readonly stored: StoredIds;
}

/**
 * Erases of a person what need not be kept by now. Bytes go first and rows after, so that whatever stops it, the next
 * run still knows of what is left. It can be run again at any time.
 */
export class PersonErasure {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
  ) {}

  async carryOut(of: { studioId: string; requestId: string }, signal: AbortSignal): Promise<void> {
    const due = await this.transaction.run(of, (tx) => this.plan(tx, of));
    if (!due) return;
    for (const key of keysOf(of.studioId, due)) {
      signal.throwIfAborted();
      await this.storage.delete(key);
    }
    await this.transaction.run(of, (tx) => this.erase(tx, of, due));
  }

  /** Null when the person is no more. */
  private async plan(
    tx: EntityManager,
    { studioId, requestId }: { studioId: string; requestId: string },
  ): Promise<Due | null> {
    const request = await queries.findRequestForUpdate(tx, { studioId, id: requestId });
    if (request?.clientId == null || request.kind !== 'erasure' || request.decidedBy === null) return null;
    const clientIds = await sameClientIds(tx, { studioId, clientId: request.clientId });
    const person = { studioId, clientIds };
    if (request.state === 'under_way') {
      const facts = await queries.findKeptFacts(tx, person);
      if (!facts) throw new GiveUp('nobody has said by which law records are kept');
      await queries.insertErasures(tx, person, requestId, keptParts(facts));
    }
    const categories = await queries.listDue(tx, person);
    return { person, categories, stored: await queries.findStored(tx, person) };
  }

  private async erase(
    tx: EntityManager,
    { studioId, requestId }: { studioId: string; requestId: string },
    { person, categories }: Due,
  ): Promise<void> {
    const request = await queries.findRequestForUpdate(tx, { studioId, id: requestId });
    if (request?.clientId == null) return;
    if (request.state === 'under_way') await queries.markDone(tx, request);
    for (const category of categories) {
      const fitSessionIds = category === 'health_record' ? await queries.listSessionIds(tx, person) : [];
      await queries.eraseCategory(tx, person, category);
      const signedAt = await readClock(tx);
      await eraseSigned(tx, { studioId, fitSessionIds, signedBy: request.decidedBy as string, signedAt });
    }
    await queries.forgetAnswers(tx, studioId);
    if (await queries.isAllElseErased(tx, person)) await queries.eraseLast(tx, person);
  }
}

function keysOf(studioId: string, { categories, stored }: Due): string[] {
  const ofRecord = categories.includes('health_record')
    ? [
        ...stored.files.flatMap((id) => Object.values(fileKeys(studioId, id))),
        ...stored.fitSheets.flatMap(({ id, figures }) => {
          const keys = fitSheetKeys(studioId, id);
          return [keys.pdf, keys.page, ...figures.map((figure) => keys.figure(figure))];
        }),
      ]
    : [];
  const ofContact = categories.includes('contact')
    ? stored.exports.map((id) => personExportKey(studioId, id))
    : [];
  return [...ofRecord, ...ofContact];
}
