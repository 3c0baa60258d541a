import { decimalAmount } from '@studio/money';
import type { DocumentResponse, DocumentSummaryResponse, TaxTotalResponse } from './documents.dto.js';
import type { DocumentRecord, LineRecord } from './documents.queries.js';
import { numberText } from './states.js';

export function toSummary(row: DocumentRecord): DocumentSummaryResponse {
  const { id, kind, state, clientId, buyerName, suppliedOn, currency, netMinor, taxMinor, grossMinor } = row;
  const { creditedMinor, paidMinor, version } = row;
  return {
    ...{ id, kind, state, clientId, buyerName, suppliedOn, currency, netMinor, taxMinor, grossMinor },
    number: numberText(row),
    issuedAt: row.issuedAt?.toISOString() ?? null,
    gross: decimalAmount(grossMinor, currency),
    ...{ creditedMinor, paidMinor, openMinor: openOf(row), version },
  };
}

/** Of an issued receipt what is still to be paid; below 0 what the client is to be given back. */
export function openOf(row: DocumentRecord): number {
  if (row.kind !== 'receipt' || (row.state !== 'issued' && row.state !== 'credited')) return 0;
  return row.grossMinor - row.creditedMinor - row.paidMinor;
}

export function toResponse(row: DocumentRecord, lines: readonly LineRecord[]): DocumentResponse {
  const { buyerAddress, buyerTaxNumber, note, validUntil, taxIncluded, reason } = row;
  const { discountPercent, discountMinor, quoteId, receiptId } = row;
  return {
    ...toSummary(row),
    ...{ buyerAddress, buyerTaxNumber, note, validUntil, taxIncluded, reason },
    ...{ discountPercent, discountMinor, quoteId, receiptId },
    lines: [...lines],
    taxes: taxesOf(lines),
  };
}

/** One sum for each tax class and rate, in the order of the lines. */
function taxesOf(lines: readonly LineRecord[]): TaxTotalResponse[] {
  const taxes = new Map<string, TaxTotalResponse>();
  for (const { taxClass, taxRatePercent, netMinor, taxMinor, grossMinor } of lines) {
    const key = `${taxClass} ${taxRatePercent}`;
    const sum = taxes.get(key) ?? { taxClass, taxRatePercent, netMinor: 0, taxMinor: 0, grossMinor: 0 };
    sum.netMinor += netMinor;
    sum.taxMinor += taxMinor;
    sum.grossMinor += grossMinor;
    taxes.set(key, sum);
  }
  return [...taxes.values()];
}
