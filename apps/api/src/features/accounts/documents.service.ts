import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  studioClock,
  TenantTransaction,
  type AccountSettings,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { localDay } from '../../http/local-days.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, StaleVersion } from '../../http/problem.js';
import { DocumentNotPossible, NotSetUp, type DocumentAction } from './accounts.errors.js';
import { composeLines } from './compose-lines.js';
import { creditLines } from './credit-lines.js';
import { toResponse, toSummary } from './document-response.js';
import { documentPdf } from './document-pdf.js';
import type {
  CreateCreditNoteRequest,
  CreateDocumentRequest,
  DocumentContentRequest,
  DocumentPage,
  DocumentResponse,
  ListDocumentsQuery,
} from './documents.dto.js';
import * as queries from './documents.queries.js';
import { findSettings } from './price-list.queries.js';
import { allowedActions } from './states.js';

/** Quotes, receipts and credit notes: drafted, issued with a number, and then only corrected by one another. */
@Injectable()
export class DocumentsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async create(ctx: TenantContext, request: CreateDocumentRequest): Promise<DocumentResponse> {
    return this.transaction.runOnce(ctx, async (tx) => {
      const { kind, series, ...content } = request;
      const settings = await settingsOf(tx, ctx);
      const own = { quote: settings.quoteSeries, receipt: settings.receiptSeries }[kind];
      return this.drafted(tx, ctx, settings, content, { kind, series: series ?? own });
    });
  }

  async get(ctx: TenantContext, id: string): Promise<DocumentResponse> {
    return this.transaction.read(ctx, async (sql) => {
      const key = { studioId: ctx.studioId, id };
      return toResponse(found(await queries.findDocument(sql, key)), await queries.listLines(sql, key));
    });
  }

  async list(ctx: TenantContext, query: ListDocumentsQuery): Promise<DocumentPage> {
    const limit = pageSize(query);
    const { kind = null, state = null, clientId = null, after = null } = query;
    const page = { studioId: ctx.studioId, kind, state, clientId, after, limit: limit + 1 };
    const rows = await this.transaction.read(ctx, (sql) => queries.listDocuments(sql, page));
    return pageOf(rows.map(toSummary), limit);
  }

  /** Replace all that a draft says. */
  async change(
    ctx: TenantContext,
    id: string,
    version: number,
    request: DocumentContentRequest,
  ): Promise<DocumentResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const now = await this.possible(tx, { studioId, id }, version, 'change');
      const settings = await settingsOf(tx, ctx);
      const { fields, lines } = await this.composed(tx, ctx, settings, request);
      await this.written(tx, { studioId, id, version: now.version }, fields);
      await queries.replaceLines(tx, { studioId, id }, lines);
      return this.answer(tx, ctx, id, 'account-documents.change');
    });
  }

  async issue(ctx: TenantContext, id: string, version: number): Promise<DocumentResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      await this.number(tx, ctx, await this.possible(tx, key, version, 'issue'));
      return this.answer(tx, ctx, id, 'account-documents.issue');
    });
  }

  async discard(ctx: TenantContext, id: string, version: number): Promise<DocumentResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      await this.possible(tx, key, version, 'discard');
      await this.written(tx, { ...key, version }, { state: 'discarded' });
      return this.answer(tx, ctx, id, 'account-documents.discard');
    });
  }

  /** A draft of a receipt at the prices that were quoted; tax by the rates of its own day of supply. */
  async makeReceipt(ctx: TenantContext, quoteId: string): Promise<DocumentResponse> {
    const key = { studioId: ctx.studioId, id: quoteId };
    return this.transaction.runOnce(ctx, async (tx) => {
      const quote = await this.possible(tx, key, null, 'make_receipt');
      const settings = await settingsOf(tx, ctx);
      const lines = await queries.listLines(tx, key);
      const content: DocumentContentRequest = {
        ...present(quote, ['clientId', 'buyerName', 'buyerAddress', 'buyerTaxNumber', 'note']),
        ...discountAsked(quote),
        lines: lines.map((line) => ({
          ...present(line, [
            'serviceId',
            'partId',
            'appointmentId',
            'description',
            'quantity',
            'unitPriceMinor',
          ]),
          ...(line.taxClass !== 'unclassed' && { taxClass: line.taxClass }),
          ...discountAsked(line),
        })),
      };
      const { currency, taxIncluded } = quote;
      return this.drafted(tx, ctx, { ...settings, currency, taxIncluded }, content, {
        kind: 'receipt',
        series: settings.receiptSeries,
        quoteId,
      });
    });
  }

  /** Correct a receipt, in part or whole: issued at once, since a receipt and its corrections belong together. */
  async credit(
    ctx: TenantContext,
    receiptId: string,
    request: CreateCreditNoteRequest,
  ): Promise<DocumentResponse> {
    const { studioId } = ctx;
    const key = { studioId, id: receiptId };
    return this.transaction.runOnce(ctx, async (tx) => {
      await queries.lockDocument(tx, key);
      const receipt = await this.possible(tx, key, null, 'credit');
      const { creditNoteSeries } = await settingsOf(tx, ctx);
      const { taxIncluded, currency, suppliedOn, clientId, buyerName, buyerAddress, buyerTaxNumber } =
        receipt;
      const lines = creditLines(
        {
          taxIncluded,
          lines: await queries.listLines(tx, key),
          creditedNet: await queries.creditedNet(tx, key),
        },
        request.lines,
      );
      const id = await queries.insertDocument(tx, studioId, {
        ...{ kind: 'credit_note', series: creditNoteSeries, receiptId, reason: request.reason },
        ...{ taxIncluded, currency, suppliedOn, clientId, buyerName, buyerAddress, buyerTaxNumber },
        ...sumOf(lines),
      });
      await queries.replaceLines(tx, { studioId, id }, lines);
      await this.number(tx, ctx, found(await queries.findDocument(tx, { studioId, id })));
      return this.answer(tx, ctx, id, 'account-documents.credit');
    });
  }

  async pdf(ctx: TenantContext, id: string): Promise<{ name: string; pdf: Buffer }> {
    const key = { studioId: ctx.studioId, id };
    const { row, lines, settings, clock, corrects } = await this.transaction.run(ctx, async (tx) => {
      const row = found(await queries.findDocument(tx, key));
      const receipt = row.receiptId === null ? null : { studioId: ctx.studioId, id: row.receiptId };
      return {
        row,
        lines: await queries.listLines(tx, key),
        settings: await settingsOf(tx, ctx),
        clock: await studioClock(tx, ctx.studioId),
        corrects: receipt && (await queries.findDocument(tx, receipt)),
      };
    });
    const document = toResponse(row, lines);
    return {
      name: `${document.number ?? 'draft'}.pdf`,
      pdf: await documentPdf({
        document,
        seller: row.seller ?? sellerOf(settings),
        paper: settings.paper,
        timeZone: clock.timeZone,
        corrects: corrects && toSummary(corrects).number,
      }),
    };
  }

  private async drafted(
    tx: EntityManager,
    ctx: TenantContext,
    settings: AccountSettings,
    content: DocumentContentRequest,
    about: { kind: 'quote' | 'receipt'; series: string; quoteId?: string },
  ): Promise<DocumentResponse> {
    const { studioId } = ctx;
    const { fields, lines } = await this.composed(tx, ctx, settings, content);
    const id = await queries.insertDocument(tx, studioId, { ...fields, ...about });
    await queries.replaceLines(tx, { studioId, id }, lines);
    return this.answer(tx, ctx, id, 'account-documents.create');
  }

  private async composed(
    tx: EntityManager,
    { studioId }: TenantContext,
    { currency, taxIncluded }: AccountSettings,
    content: DocumentContentRequest,
  ): Promise<{ fields: queries.DocumentFields; lines: queries.NewLine[] }> {
    const { now, timeZone } = await studioClock(tx, studioId);
    const { clientId = null, suppliedOn = localDay(now, timeZone), discount } = content;
    const { lines, totals } = await composeLines(tx, {
      ...{ studioId, clientId, currency, taxIncluded, suppliedOn, discount, lines: content.lines },
    });
    const {
      buyerName = null,
      buyerAddress = null,
      buyerTaxNumber = null,
      note = null,
      validUntil = null,
    } = content;
    const { netMinor, taxMinor, grossMinor } = totals;
    return {
      lines,
      fields: {
        ...{
          clientId,
          buyerName,
          buyerAddress,
          buyerTaxNumber,
          note,
          validUntil,
          suppliedOn,
          currency,
          taxIncluded,
        },
        ...{ netMinor, taxMinor, grossMinor },
        discountPercent: discount?.percent ?? null,
        discountMinor: discount?.amountMinor ?? null,
      },
    };
  }

  /** Issue a draft: from here on it is as the client has it. */
  private async number(tx: EntityManager, ctx: TenantContext, draft: queries.DocumentRecord): Promise<void> {
    const { studioId, userId } = ctx;
    const { id, version, series, buyerName } = draft;
    const { timeZone } = await studioClock(tx, studioId);
    const seller = sellerOf(await settingsOf(tx, ctx));
    const taken = await queries.takeNumber(tx, { studioId, series, timeZone });
    const issued = { state: 'issued' as const, ...taken, issuedBy: userId, seller, buyerName };
    await this.written(tx, { studioId, id, version }, issued);
  }

  /** @throws DocumentNotPossible in a state that does not allow the action, whatever the version */
  private async possible(
    tx: EntityManager,
    key: queries.Key,
    version: number | null,
    action: DocumentAction,
  ): Promise<queries.DocumentRecord> {
    const now = found(await queries.findDocument(tx, key));
    const allowed = allowedActions(now);
    if (!allowed.includes(action)) throw new DocumentNotPossible(now.state, allowed);
    if (version !== null && now.version !== version) throw new StaleVersion();
    return now;
  }

  private async written(
    tx: EntityManager,
    key: queries.Key & { version: number },
    fields: Parameters<typeof queries.updateDocument>[2],
  ): Promise<void> {
    if (!(await queries.updateDocument(tx, key, fields))) throw new StaleVersion();
  }

  private async answer(
    tx: EntityManager,
    ctx: TenantContext,
    id: string,
    action: string,
  ): Promise<DocumentResponse> {
    const key = { studioId: ctx.studioId, id };
    await recordAudit(tx, ctx, { action, recordId: id });
    return toResponse(found(await queries.findDocument(tx, key)), await queries.listLines(tx, key));
  }
}

async function settingsOf(tx: EntityManager, { studioId }: TenantContext): Promise<AccountSettings> {
  const settings = await findSettings(tx, studioId);
  if (!settings) throw new NotSetUp();
  return settings;
}

function sellerOf({ sellerName, sellerAddress, sellerTaxNumber, footer }: AccountSettings) {
  return { name: sellerName, address: sellerAddress, taxNumber: sellerTaxNumber, footer };
}

function sumOf(lines: readonly queries.NewLine[]) {
  const sum = (part: 'netMinor' | 'taxMinor' | 'grossMinor'): number =>
    lines.reduce((total, line) => total + line[part], 0);
  return { netMinor: sum('netMinor'), taxMinor: sum('taxMinor'), grossMinor: sum('grossMinor') };
}

function discountAsked(row: { discountPercent: string | null; discountMinor: number | null }) {
  const { discountPercent: percent, discountMinor: amountMinor } = row;
  if (percent !== null) return { discount: { percent } };
  return amountMinor === null ? {} : { discount: { amountMinor } };
}

/** The fields of a row that are there, as a request would give them. */
function present<Row, Field extends keyof Row>(
  row: Row,
  fields: readonly Field[],
): { [F in Field]?: NonNullable<Row[F]> } {
  return Object.fromEntries(
    fields.flatMap((field) => (row[field] === null ? [] : [[field, row[field]]])),
  ) as { [F in Field]?: NonNullable<Row[F]> };
}
