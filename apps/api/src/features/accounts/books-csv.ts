import { decimalAmount } from '@studio/money';
import { stringify } from 'csv-stringify';
import { Readable } from 'node:stream';
import type { MoneyRow, SalesRow } from './books.queries.js';
import { numberText } from './states.js';

/** What the columns hold; part of the API's document. */
export const salesColumns = {
  day: 'day of issue by the studio’s calendar',
  kind: 'receipt or credit_note',
  number: 'series, year and number',
  corrects: 'of a credit note: the number of its receipt',
  supplied_on: 'day of supply',
  client_id: 'empty for a sale to somebody who is no client',
  buyer: 'name as printed',
  tax_class: 'one row for each tax class and rate of a document',
  tax_rate_percent: 'the rate',
  net: 'in the currency, with its decimals and a point; below 0 on a credit note',
  tax: 'likewise',
  gross: 'likewise',
  currency: 'ISO 4217',
} as const;

export const moneyColumns = {
  day: 'day by the studio’s calendar',
  recorded_at: 'instant, UTC',
  kind: 'payment, deposit, refund or reversal',
  method: 'cash, card_terminal or bank_transfer',
  document: 'number of the receipt or credit note, where there is one',
  client_id: 'whose money',
  amount: 'in the currency, with its decimals and a point; below 0 when given back',
  currency: 'ISO 4217',
  payment_id: 'of this record',
  reverses: 'of a reversal: the record it takes back',
  note: 'as entered',
} as const;

export const described = (columns: Readonly<Record<string, string>>): string =>
  Object.entries(columns)
    .map(([column, meaning]) => `\`${column}\`: ${meaning}`)
    .join('; ');

type Cells<Columns> = Record<keyof Columns, string>;

export function salesCells(row: SalesRow): Cells<typeof salesColumns>[] {
  const amount = (amountMinor: number): string => decimalAmount(amountMinor, row.currency);
  return row.taxes.map(({ taxClass, taxRatePercent, netMinor, taxMinor, grossMinor }) => ({
    ...{ day: row.day, kind: row.kind, number: numberText(row) ?? '' },
    corrects: row.corrects === null ? '' : (numberText(row.corrects) ?? ''),
    supplied_on: row.suppliedOn,
    client_id: row.clientId ?? '',
    buyer: plainText(row.buyerName ?? ''),
    tax_class: taxClass,
    tax_rate_percent: String(taxRatePercent),
    ...{ net: amount(netMinor), tax: amount(taxMinor), gross: amount(grossMinor), currency: row.currency },
  }));
}

export function moneyCells(row: MoneyRow): Cells<typeof moneyColumns> {
  return {
    ...{ day: row.day, recorded_at: row.recordedAt, kind: row.kind, method: row.method },
    document: row.document === null ? '' : (numberText(row.document) ?? ''),
    client_id: row.clientId ?? '',
    amount: decimalAmount(row.amountMinor, row.currency),
    ...{ currency: row.currency, payment_id: row.id, reverses: row.reversesId ?? '' },
    note: plainText(row.note ?? ''),
  };
}

/**
 * What people typed, led by an apostrophe where a spreadsheet would take it for a formula (OWASP, "CSV Injection").
 * Amounts are ours and keep their sign.
 */
export function plainText(text: string): string {
  return /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
}

/** CSV (RFC 4180) in UTF-8 with a byte order mark, written while it is read. */
export function csvStream<Columns extends Readonly<Record<string, string>>>(
  columns: Columns,
  rows: AsyncIterable<Cells<Columns>>,
): Readable {
  const writer = stringify({
    header: true,
    columns: Object.keys(columns),
    record_delimiter: 'windows',
    bom: true,
  });
  return Readable.from(rows)
    .on('error', (error) => writer.destroy(error))
    .pipe(writer);
}
