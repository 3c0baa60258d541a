import { Controller, Get, Param, Query, StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { described, moneyColumns, salesColumns } from './books-csv.js';
import { ClientBalanceResponse, DaysQuery, DayTotalsResponse } from './books.dto.js';
import { BooksService } from './books.service.js';

const csv = (name: string) => ({
  type: 'text/csv; charset=utf-8',
  disposition: `attachment; filename="${name}.csv"`,
});

@ApiTags('Accounts')
@Controller('v1')
export class BooksController {
  constructor(private readonly books: BooksService) {}

  @Get('day-totals')
  @Describe({
    id: 'listDayTotals',
    summary: 'What was sold and what was taken, day by day, by tax rate and method',
    description: 'By the studio’s calendar; days without either are left out. At most a year.',
    returns: [DayTotalsResponse],
    problems: [400],
  })
  dayTotals(@Ctx() ctx: TenantContext, @Query() query: DaysQuery): Promise<DayTotalsResponse[]> {
    return this.books.dayTotals(ctx, query);
  }

  @Get('clients/:clientId/balance')
  @Describe({
    id: 'getClientBalance',
    summary: 'What a client owes or is owed, one entry for each currency',
    returns: [ClientBalanceResponse],
    problems: [404],
  })
  balance(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ClientBalanceResponse[]> {
    return this.books.balance(ctx, clientId);
  }

  @Get('books/sales.csv')
  @DescribeFile({
    id: 'exportSales',
    summary: 'Receipts and credit notes for the bookkeeper, as CSV',
    description: `Columns: ${described(salesColumns)}.`,
    type: 'text/csv',
    problems: [400],
  })
  async sales(@Ctx() ctx: TenantContext, @Query() query: DaysQuery): Promise<StreamableFile> {
    return new StreamableFile(await this.books.salesCsv(ctx, query), csv('sales'));
  }

  @Get('books/money.csv')
  @DescribeFile({
    id: 'exportMoney',
    summary: 'Money taken and given back for the bookkeeper, as CSV',
    description: `Columns: ${described(moneyColumns)}.`,
    type: 'text/csv',
    problems: [400],
  })
  async money(@Ctx() ctx: TenantContext, @Query() query: DaysQuery): Promise<StreamableFile> {
    return new StreamableFile(await this.books.moneyCsv(ctx, query), csv('money'));
  }
}
