import { finishOrder, orderMessage, type TenantTransaction } from '@studio/database';
import { buildFitSheet, figuresOf, fitSheetPage, type SheetLanguage } from '@studio/fit-sheet';
import { fitSheetKeys, type ObjectStorage } from '@studio/storage';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import { fitSheetPdf } from './fit-sheet-pdf.js';
import * as queries from './render-fit-sheet.queries.js';

/** Makes the documents and keeps them, then says so; done twice it keeps the same ones again. */
export class RenderFitSheetJob implements JobHandler<'render-fit-sheet'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'render-fit-sheet'>): Promise<void> {
    const key = { studioId, id: payload.fitSheetId };
    const ordered = await this.transaction.run({ studioId }, async (tx) => {
      const sheet = await queries.findFitSheet(tx, key);
      if (sheet?.state !== 'ordered') return null;
      const session = { studioId, id: sheet.fitSessionId };
      const language = sheet.language ?? (await queries.findLanguage(tx, session));
      return { sheet, language, facts: await queries.findFacts(tx, session) };
    });
    const figures = ordered && (await this.make(key, ordered));
    await this.transaction.run({ studioId }, async (tx) => {
      if (figures && (await queries.settleFitSheet(tx, key, { state: 'ready', figures }))) {
        await tellRider(tx, ordered.sheet);
      }
      await finishOrder(tx, { studioId, outboxId });
    });
  }

  async gaveUp(tx: EntityManager, { studioId, payload }: Order<'render-fit-sheet'>): Promise<void> {
    await queries.settleFitSheet(tx, { studioId, id: payload.fitSheetId }, { state: 'failed' });
  }

  private async make(
    { studioId, id }: { studioId: string; id: string },
    { sheet: { audience, lengths, paper }, language, facts }: NonNullable<Ordered>,
  ): Promise<string[]> {
    const sheet = buildFitSheet(facts, { audience, lengths, language });
    const keys = fitSheetKeys(studioId, id);
    await this.storage.put(keys.pdf, await fitSheetPdf(sheet, paper), 'application/pdf');
    await this.storage.put(keys.page, Buffer.from(fitSheetPage(sheet)), 'text/html; charset=utf-8');
    const figures = figuresOf(sheet);
    for (const { name, drawing } of figures) {
      await this.storage.put(keys.figure(name), Buffer.from(drawing.svg), 'image/svg+xml');
    }
    return figures.map(({ name }) => name);
  }
}

async function tellRider(
  tx: EntityManager,
  { studioId, id: subjectId, fitSessionId, tellRider: isToBeTold }: NonNullable<Ordered>['sheet'],
): Promise<void> {
  if (!isToBeTold) return;
  const clientId = await queries.clientOf(tx, { studioId, id: fitSessionId });
  await orderMessage(tx, { studioId, clientId, template: 'fit_sheet_ready', subjectId });
}

type Ordered = {
  sheet: NonNullable<Awaited<ReturnType<typeof queries.findFitSheet>>>;
  language: SheetLanguage;
  facts: Awaited<ReturnType<typeof queries.findFacts>>;
} | null;
