import { Injectable } from '@nestjs/common';
import {
  orderJob,
  recordAudit,
  TenantTransaction,
  type FitSheetRow,
  type TenantContext,
} from '@studio/database';
import { fitSheetKeys, SignedAddresses } from '@studio/storage';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, NotFound } from '../../http/problem.js';
import type {
  FitSheetPage,
  FitSheetResponse,
  OrderFitSheetRequest,
  SheetDocumentResponse,
} from './fit-sheets.dto.js';
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
    { audience, paper = 'a4', lengths = 'mm', language }: OrderFitSheetRequest,
  ): Promise<FitSheetResponse> {
    const { studioId } = ctx;
    return this.transaction.runOnce(ctx, async (tx) => {
      if (!(await queries.sessionExists(tx, { studioId, id: fitSessionId }))) throw new NotFound();
      const orderedBy = ctx.userId as string;
      const sheet = await queries.insertFitSheet(tx, {
        ...{ studioId, fitSessionId, audience, paper, lengths, language: language ?? null, orderedBy },
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

  private toResponse(sheet: FitSheetRow): FitSheetResponse {
    const { id, fitSessionId, audience, paper, lengths, language, state, createdAt, finishedAt } = sheet;
    return {
      ...{ id, fitSessionId, audience, paper, lengths, language, state },
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
