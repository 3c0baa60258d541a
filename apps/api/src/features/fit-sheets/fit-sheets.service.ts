import { Injectable } from '@nestjs/common';
import {
  hashesEqual,
  orderJob,
  readClock,
  readTenantToken,
  recordAudit,
  secretHash,
  TenantTransaction,
  type FitSheetRow,
  type TenantContext,
} from '@studio/database';
import { fitSheetKeys, SignedAddresses } from '@studio/storage';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, InvalidRequest, NotFound } from '../../http/problem.js';
import type {
  FitSheetPage,
  FitSheetResponse,
  OrderFitSheetRequest,
  SheetDocumentResponse,
} from './fit-sheets.dto.js';
import { FitSheetLinkRunOut } from './fit-sheets.errors.js';
import * as queries from './fit-sheets.queries.js';

@Injectable()
export class FitSheetsService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly addresses: SignedAddresses,
  ) {}

  async order(
    ctx: TenantContext,
    fitSessionId: string,
    { audience, paper = 'a4', lengths = 'mm', language, tellRider = false }: OrderFitSheetRequest,
  ): Promise<FitSheetResponse> {
    const { studioId } = ctx;
    if (tellRider && audience !== 'rider') {
      throw new InvalidRequest([{ field: 'tellRider', message: 'goes with the sheet for the rider only' }]);
    }
    return this.transaction.runOnce(ctx, async (tx) => {
      if (!(await queries.sessionExists(tx, { studioId, id: fitSessionId }))) throw new NotFound();
      const orderedBy = ctx.userId as string;
      const sheet = await queries.insertFitSheet(tx, {
        ...{
          studioId,
          fitSessionId,
          audience,
          paper,
          lengths,
          language: language ?? null,
          tellRider,
          orderedBy,
        },
      });
      await orderJob(tx, { studioId, job: 'render-fit-sheet', payload: { fitSheetId: sheet.id } });
      await recordAudit(tx, ctx, { action: 'fit-sheets.order', recordId: sheet.id });
      return this.toResponse(sheet);
    });
  }

  async get(ctx: TenantContext, id: string): Promise<FitSheetResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.toResponse(found(await this.transaction.run(ctx, (tx) => queries.findFitSheet(tx, key))));
  }

  async list(ctx: TenantContext, fitSessionId: string, query: PageQuery): Promise<FitSheetPage> {
    const { studioId } = ctx;
    const limit = pageSize(query);
    const rows = await this.transaction.run(ctx, async (tx) => {
      if (!(await queries.sessionExists(tx, { studioId, id: fitSessionId }))) throw new NotFound();
      return queries.listFitSheets(tx, {
        ...{ studioId, fitSessionId, after: query.after ?? null, limit: limit + 1 },
      });
    });
    const { items, next } = pageOf(rows, limit);
    return { items: items.map((sheet) => this.toResponse(sheet)), next };
  }

  /**
   * The address of the page a rider's link leads to; it holds a few minutes.
   *
   * @throws NotFound for what never was a link of ours, FitSheetLinkRunOut for one that was
   */
  async pageOf(link: string, requestId: string): Promise<string> {
    const token = found(readTenantToken(link));
    const { studioId, id, secret } = token;
    return this.transaction.run(token, async (tx) => {
      const sheet = await queries.findFitSheet(tx, { studioId, id });
      if (!sheet?.linkHash || !sheet.linkExpiresAt || !hashesEqual(sheet.linkHash, secretHash(secret))) {
        throw new NotFound();
      }
      if (sheet.linkExpiresAt <= (await readClock(tx))) throw new FitSheetLinkRunOut();
      await recordAudit(
        tx,
        { studioId, userId: null, roles: [], requestId },
        { action: 'fit-sheets.open-link', recordId: id },
      );
      return found(this.documentsOf(sheet).find(({ name }) => name === 'page.html') ?? null).url;
    });
  }

  private toResponse(sheet: FitSheetRow): FitSheetResponse {
    const { id, fitSessionId, audience, paper, lengths, language, tellRider, state, createdAt, finishedAt } =
      sheet;
    return {
      ...{ id, fitSessionId, audience, paper, lengths, language, tellRider, state },
      orderedAt: createdAt.toISOString(),
      finishedAt: finishedAt?.toISOString() ?? null,
      documents: state === 'ready' ? this.documentsOf(sheet) : [],
    };
  }

  private documentsOf({ studioId, id, figures }: FitSheetRow): SheetDocumentResponse[] {
    const keys = fitSheetKeys(studioId, id);
    const documents = [
      { name: 'sheet.pdf', key: keys.pdf, mediaType: 'application/pdf' },
      { name: 'page.html', key: keys.page, mediaType: 'text/html' },
      ...figures.map((figure) => ({
        ...{ name: `${figure}.svg`, key: keys.figure(figure), mediaType: 'image/svg+xml' },
      })),
    ];
    return documents.map(({ name, key, mediaType }) => ({
      ...{ name, mediaType },
      url: this.addresses.addressOf({ key, mediaType: inUtf8(mediaType), fileName: `fit-${name}` }).url,
    }));
  }
}

const inUtf8 = (mediaType: string): string =>
  mediaType === 'text/html' ? `${mediaType}; charset=utf-8` : mediaType;
