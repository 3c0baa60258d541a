import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  AccountSettingsResponse,
  CreateAccountSettingsRequest,
  CreatePartRequest,
  CreateTaxRateRequest,
  EndTaxRateRequest,
  PartPage,
  PartResponse,
  TaxRatePage,
  TaxRateResponse,
  UpdateAccountSettingsRequest,
  UpdatePartRequest,
} from './price-list.dto.js';
import { PriceListService } from './price-list.service.js';

const create = { status: 201, problems: [400, 409], versioned: true, once: true } as const;

@ApiTags('Accounts')
@Controller('v1')
export class PriceListController {
  constructor(private readonly priceList: PriceListService) {}

  @Post('account-settings')
  @Describe({
    ...create,
    id: 'createAccountSettings',
    summary: 'Say how the studio sells: currency, prices with or without tax, what its papers say',
    returns: AccountSettingsResponse,
  })
  createSettings(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateAccountSettingsRequest,
  ): Promise<AccountSettingsResponse> {
    return this.priceList.createSettings(ctx, request);
  }

  @Get('account-settings')
  @Describe({
    id: 'getAccountSettings',
    summary: 'How the studio sells',
    returns: AccountSettingsResponse,
    problems: [404],
    versioned: true,
  })
  settings(@Ctx() ctx: TenantContext): Promise<AccountSettingsResponse> {
    return this.priceList.settings(ctx);
  }

  @Patch('account-settings')
  @Describe({
    id: 'updateAccountSettings',
    summary: 'Change how the studio sells; what is issued stays as it is',
    returns: AccountSettingsResponse,
    problems: [400, 404],
    ifMatch: true,
  })
  updateSettings(
    @Ctx() ctx: TenantContext,
    @IfMatch() version: number,
    @Body() request: UpdateAccountSettingsRequest,
  ): Promise<AccountSettingsResponse> {
    return this.priceList.updateSettings(ctx, version, request);
  }

  @Post('tax-rates')
  @Describe({
    ...create,
    id: 'createTaxRate',
    summary: 'Enter the rate of a tax class and the days it counts on',
    description:
      'Which rates apply is for the studio to know. 409 `accounts.rates-overlap` where the class has one.',
    returns: TaxRateResponse,
  })
  createTaxRate(@Ctx() ctx: TenantContext, @Body() request: CreateTaxRateRequest): Promise<TaxRateResponse> {
    return this.priceList.createTaxRate(ctx, request);
  }

  @Get('tax-rates')
  @Describe({
    id: 'listTaxRates',
    summary: 'Rates of tax, past and to come',
    returns: TaxRatePage,
    problems: [400],
  })
  listTaxRates(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<TaxRatePage> {
    return this.priceList.listTaxRates(ctx, query);
  }

  @Patch('tax-rates/:taxRateId')
  @Describe({
    id: 'endTaxRate',
    summary: 'Say on which day a rate ends; another rate is another entry',
    returns: TaxRateResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  endTaxRate(
    @Ctx() ctx: TenantContext,
    @Param('taxRateId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: EndTaxRateRequest,
  ): Promise<TaxRateResponse> {
    return this.priceList.endTaxRate(ctx, id, version, request);
  }

  @Post('parts')
  @Describe({ ...create, id: 'createPart', summary: 'Put a part on the price list', returns: PartResponse })
  createPart(@Ctx() ctx: TenantContext, @Body() request: CreatePartRequest): Promise<PartResponse> {
    return this.priceList.createPart(ctx, request);
  }

  @Get('parts')
  @Describe({ id: 'listParts', summary: 'The price list of parts', returns: PartPage, problems: [400] })
  listParts(@Ctx() ctx: TenantContext, @Query() query: PageQuery): Promise<PartPage> {
    return this.priceList.listParts(ctx, query);
  }

  @Get('parts/:partId')
  @Describe({ id: 'getPart', summary: 'One part', returns: PartResponse, problems: [404], versioned: true })
  getPart(@Ctx() ctx: TenantContext, @Param('partId', idPipe) id: string): Promise<PartResponse> {
    return this.priceList.getPart(ctx, id);
  }

  @Patch('parts/:partId')
  @Describe({
    id: 'updatePart',
    summary: 'Change or retire a part; what was sold keeps its price',
    returns: PartResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  updatePart(
    @Ctx() ctx: TenantContext,
    @Param('partId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdatePartRequest,
  ): Promise<PartResponse> {
    return this.priceList.updatePart(ctx, id, version, request);
  }
}
