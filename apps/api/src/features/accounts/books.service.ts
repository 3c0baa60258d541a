import { Injectable } from '@nestjs/common';
import { studioClock, TenantTransaction, type SqlRunner, type TenantContext } from '@studio/database';
import { decimalAmount } from '@studio/money';
import { Temporal } from 'temporal-polyfill';
import type { Readable } from 'node:stream';
import { found, InvalidRequest } from '../../http/problem.js';
import { csvStream, moneyCells, moneyColumns, salesCells, salesColumns } from './books-csv.js';
import type { ClientBalanceResponse, DayTotalsResponse, DaysQuery } from './books.dto.js';
import * as queries from './books.queries.js';

/** The most days one answer tells of. */
const mostDays = 366;
/** Rows of an export read at once. */
const batch = 500;

type ReadPage<Row> = (
  sql: SqlRunner,
  days: { studioId: string; timeZone: string } & DaysQuery,
  page: { after: queries.After | null; limit: number },
) => Promise<Row[]>;

/** What was sold and taken, by day and for the bookkeeper; what a client owes. */
@Injectable()
export class BooksService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** Days on which something was issued or money recorded; one entry for each currency. */
  async dayTotals(ctx: TenantContext, query: DaysQuery): Promise<DayTotalsResponse[]> {
    checkDays(query);
    return this.transaction.read(ctx, async (sql) => {
      const days = await daysOf(sql, ctx, query);
      const taxes = await queries.taxesByDay(sql, days);
      const issued = await queries.issuedByDay(sql, days);
      const methods = await queries.methodsByDay(sql, days);
      const keys = [...taxes, ...issued, ...methods].map(({ day, currency }) => `${day} ${currency}`);
      return [...new Set(keys)].sort().map((key) => {
        const [day, currency] = key.split(' ') as [string, string];
        const ofDay = <Row extends { day: string; currency: string }>(rows: readonly Row[]) =>
          rows
            .filter((row) => row.day === day && row.currency === currency)
            .map(({ day: _day, currency: _currency, ...rest }) => rest);
        const { receipts = 0, creditNotes = 0 } = ofDay(issued)[0] ?? {};
        const sums = ofDay(taxes);
        const sum = (part: 'netMinor' | 'taxMinor' | 'grossMinor'): number =>
          sums.reduce((total, row) => total + row[part], 0);
        return {
          ...{ day, currency, receipts, creditNotes },
          ...{ netMinor: sum('netMinor'), taxMinor: sum('taxMinor'), grossMinor: sum('grossMinor') },
          taxes: sums,
          methods: ofDay(methods),
        };
      });
    });
  }

  /** One for each currency the client has dealt in. */
  async balance(ctx: TenantContext, clientId: string): Promise<ClientBalanceResponse[]> {
    const key = { studioId: ctx.studioId, clientId };
    return this.transaction.read(ctx, async (sql) => {
      found((await queries.hasClient(sql, key)) || null);
      return (await queries.clientBalances(sql, key)).map((row) => {
        const balanceMinor = row.openMinor - row.depositsMinor;
        return { ...row, balanceMinor, balance: decimalAmount(balanceMinor, row.currency) };
      });
    });
  }

  async salesCsv(ctx: TenantContext, query: DaysQuery): Promise<Readable> {
    const rows = await this.export(ctx, query, queries.salesAfter, salesCells);
    return csvStream(salesColumns, rows);
  }

  async moneyCsv(ctx: TenantContext, query: DaysQuery): Promise<Readable> {
    const rows = await this.export(ctx, query, queries.moneyAfter, (row) => [moneyCells(row)]);
    return csvStream(moneyColumns, rows);
  }

  /** What cannot be asked for is told before the first byte is sent. */
  private async export<Row extends queries.After, Cells>(
    ctx: TenantContext,
    query: DaysQuery,
    read: ReadPage<Row>,
    cellsOf: (row: Row) => readonly Cells[],
  ): Promise<AsyncIterable<Cells>> {
    checkDays(query);
    const days = await this.transaction.read(ctx, (sql) => daysOf(sql, ctx, query));
    return this.pages(ctx, days, read, cellsOf);
  }

  private async *pages<Row extends queries.After, Cells>(
    ctx: TenantContext,
    days: Parameters<ReadPage<Row>>[1],
    read: ReadPage<Row>,
    cellsOf: (row: Row) => readonly Cells[],
  ): AsyncIterable<Cells> {
    for (let after: queries.After | null = null; ;) {
      const page: { after: queries.After | null; limit: number } = { after, limit: batch };
      const rows = await this.transaction.read(ctx, (sql) => read(sql, days, page));
      for (const row of rows) yield* cellsOf(row);
      const last = rows.at(-1);
      if (last === undefined || rows.length < batch) return;
      after = { at: last.at, id: last.id };
    }
  }
}

async function daysOf(sql: SqlRunner, { studioId }: TenantContext, { from, until }: DaysQuery) {
  const { timeZone } = await studioClock(sql, studioId);
  return { studioId, timeZone, from, until };
}

function checkDays({ from, until }: DaysQuery): void {
  const days = Temporal.PlainDate.from(from).until(Temporal.PlainDate.from(until)).days;
  if (days < 0 || days >= mostDays) {
    throw new InvalidRequest([{ field: 'until', message: `must be 0 to ${mostDays - 1} days after from` }]);
  }
}
