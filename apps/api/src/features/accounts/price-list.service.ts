import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion, type ApiError } from '../../http/problem.js';
import { AlreadySetUp, NameTaken, NotSetUp, RatesOverlap } from './accounts.errors.js';
import {
  AccountSettingsResponse,
  PartResponse,
  TaxRateResponse,
  type CreateAccountSettingsRequest,
  type CreatePartRequest,
  type CreateTaxRateRequest,
  type EndTaxRateRequest,
  type PartPage,
  type TaxRatePage,
  type UpdateAccountSettingsRequest,
  type UpdatePartRequest,
} from './price-list.dto.js';
import * as queries from './price-list.queries.js';

const standard = { paper: 'A4', quoteSeries: 'Q', receiptSeries: 'R', creditNoteSeries: 'C' } as const;

/** How the studio sells: its settings, its rates of tax, its parts. */
@Injectable()
export class PriceListService {
  constructor(private readonly transaction: TenantTransaction) {}

  async createSettings(
    ctx: TenantContext,
    request: CreateAccountSettingsRequest,
  ): Promise<AccountSettingsResponse> {
    const { studioId } = ctx;
    return refusing('account_settings_one', AlreadySetUp, () =>
      this.transaction.runOnce(ctx, async (tx) => {
        await queries.insertSettings(tx, studioId, { ...standard, ...request });
        return this.settingsWritten(tx, ctx, 'account-settings.create', request, null);
      }),
    );
  }

  async settings(ctx: TenantContext): Promise<AccountSettingsResponse> {
    return this.transaction.run(ctx, async (tx) =>
      AccountSettingsResponse.of(found(await queries.findSettings(tx, ctx.studioId))),
    );
  }

  async updateSettings(
    ctx: TenantContext,
    version: number,
    request: UpdateAccountSettingsRequest,
  ): Promise<AccountSettingsResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const before = AccountSettingsResponse.of(found(await queries.findSettings(tx, studioId)));
      if (!(await queries.updateSettings(tx, { studioId, version }, request))) throw new StaleVersion();
      return this.settingsWritten(tx, ctx, 'account-settings.update', request, before);
    });
  }

  async createTaxRate(ctx: TenantContext, request: CreateTaxRateRequest): Promise<TaxRateResponse> {
    checkDays(request.validFrom, request.validUntil ?? null);
    return refusing('tax_rates_one_a_day', RatesOverlap, () =>
      this.transaction.runOnce(ctx, async (tx) => {
        const id = await queries.insertTaxRate(tx, ctx.studioId, request);
        return this.rateWritten(tx, ctx, id, 'tax-rates.create', null);
      }),
    );
  }

  async endTaxRate(
    ctx: TenantContext,
    id: string,
    version: number,
    { validUntil }: EndTaxRateRequest,
  ): Promise<TaxRateResponse> {
    const { studioId } = ctx;
    return refusing('tax_rates_one_a_day', RatesOverlap, () =>
      this.transaction.run(ctx, async (tx) => {
        const before = TaxRateResponse.of(found(await queries.findTaxRate(tx, { studioId, id })));
        checkDays(before.validFrom, validUntil);
        if (!(await queries.updateTaxRate(tx, { studioId, id, version }, { validUntil }))) {
          throw new StaleVersion();
        }
        return this.rateWritten(tx, ctx, id, 'tax-rates.end', before);
      }),
    );
  }

  async listTaxRates(ctx: TenantContext, query: PageQuery): Promise<TaxRatePage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after, limit: limit + 1 };
    const rows = await this.transaction.run(ctx, (tx) => queries.listTaxRates(tx, page));
    return pageOf(
      rows.map((row) => TaxRateResponse.of(row)),
      limit,
    );
  }

  async createPart(ctx: TenantContext, request: CreatePartRequest): Promise<PartResponse> {
    const { studioId } = ctx;
    return refusing('parts_name_once', NameTaken, () =>
      this.transaction.runOnce(ctx, async (tx) => {
        const settings = await queries.findSettings(tx, studioId);
        if (!settings) throw new NotSetUp();
        const id = await queries.insertPart(tx, studioId, { ...request, currency: settings.currency });
        return this.partWritten(tx, ctx, id, 'parts.create', null);
      }),
    );
  }

  async getPart(ctx: TenantContext, id: string): Promise<PartResponse> {
    return this.transaction.run(ctx, async (tx) =>
      PartResponse.of(found(await queries.findPart(tx, { studioId: ctx.studioId, id }))),
    );
  }

  async listParts(ctx: TenantContext, query: PageQuery): Promise<PartPage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after, limit: limit + 1 };
    const rows = await this.transaction.run(ctx, (tx) => queries.listParts(tx, page));
    return pageOf(
      rows.map((row) => PartResponse.of(row)),
      limit,
    );
  }

  async updatePart(
    ctx: TenantContext,
    id: string,
    version: number,
    { retired, ...fields }: UpdatePartRequest,
  ): Promise<PartResponse> {
    const { studioId } = ctx;
    return refusing('parts_name_once', NameTaken, () =>
      this.transaction.run(ctx, async (tx) => {
        const before = PartResponse.of(found(await queries.findPart(tx, { studioId, id })));
        if (!(await queries.updatePart(tx, { studioId, id, version }, fields, retired))) {
          throw new StaleVersion();
        }
        return this.partWritten(tx, ctx, id, 'parts.update', before);
      }),
    );
  }

  private async settingsWritten(
    tx: EntityManager,
    ctx: TenantContext,
    action: string,
    request: object,
    before: AccountSettingsResponse | null,
  ): Promise<AccountSettingsResponse> {
    const row = found(await queries.findSettings(tx, ctx.studioId));
    const after = AccountSettingsResponse.of(row);
    await recordAudit(tx, ctx, {
      ...{ action, recordId: row.id, fields: Object.keys(request), after },
      ...(before && { before }),
    });
    return after;
  }

  private async rateWritten(
    tx: EntityManager,
    ctx: TenantContext,
    id: string,
    action: string,
    before: TaxRateResponse | null,
  ): Promise<TaxRateResponse> {
    const after = TaxRateResponse.of(found(await queries.findTaxRate(tx, { studioId: ctx.studioId, id })));
    await recordAudit(tx, ctx, { action, recordId: id, after, ...(before && { before }) });
    return after;
  }

  private async partWritten(
    tx: EntityManager,
    ctx: TenantContext,
    id: string,
    action: string,
    before: PartResponse | null,
  ): Promise<PartResponse> {
    const after = PartResponse.of(found(await queries.findPart(tx, { studioId: ctx.studioId, id })));
    await recordAudit(tx, ctx, { action, recordId: id, after, ...(before && { before }) });
    return after;
  }
}

function checkDays(from: string, until: string | null): void {
  if (until !== null && until < from) {
    throw new InvalidRequest([{ field: 'validUntil', message: 'must not be before validFrom' }]);
  }
}

async function refusing<T>(
  constraint: string,
  Refusal: new () => ApiError,
  work: () => Promise<T>,
): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw violates(error, constraint) ? new Refusal() : error;
  }
}
