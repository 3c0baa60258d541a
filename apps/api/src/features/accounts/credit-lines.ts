import { taxOfPart, withTax } from '@studio/money';
import { InvalidRequest, UnknownReference } from '../../http/problem.js';
import { MoreThanIsLeft } from './accounts.errors.js';
import type { CreditedLineRequest } from './documents.dto.js';
import type { LineRecord, NewLine } from './documents.queries.js';

type Part = { readonly line: LineRecord; readonly before: number; readonly amountMinor: number };

/**
 * The lines of a credit note: what is asked for, or all that is left of the receipt.
 *
 * @param receipt.creditedNet of each line what earlier credit notes took back, as net
 * @throws MoreThanIsLeft when a line, or the receipt, has less left
 * @throws UnknownReference for a line of another document
 */
export function creditLines(
  receipt: {
    readonly taxIncluded: boolean;
    readonly lines: readonly LineRecord[];
    readonly creditedNet: ReadonlyMap<string, number>;
  },
  wishes: readonly CreditedLineRequest[] | undefined,
): NewLine[] {
  const { taxIncluded } = receipt;
  const beforeOf = (line: LineRecord): number =>
    taxIncluded ? line.creditedMinor : (receipt.creditedNet.get(line.id) ?? 0);
  const left = (line: LineRecord): number => amountOf(line, taxIncluded) - beforeOf(line);
  const parts: Part[] =
    wishes === undefined
      ? receipt.lines
          .filter((line) => left(line) > 0)
          .map((line) => ({ line, before: beforeOf(line), amountMinor: left(line) }))
      : wishes.map((wish, index) => {
          const line = receipt.lines.find(({ id }) => id === wish.lineId);
          if (!line) throw new UnknownReference(`lines.${index}.lineId`);
          if (wishes.findIndex(({ lineId }) => lineId === wish.lineId) < index) {
            throw new InvalidRequest([{ field: `lines.${index}.lineId`, message: 'is named twice' }]);
          }
          const amountMinor = wish.amountMinor ?? left(line);
          if (amountMinor === 0 || amountMinor > left(line)) {
            throw new MoreThanIsLeft(`lines.${index}.amountMinor`, left(line));
          }
          return { line, before: beforeOf(line), amountMinor };
        });
  if (parts.length === 0) throw new MoreThanIsLeft('lines', 0);
  return parts.map((part) => creditLine(part, taxIncluded));
}

function creditLine({ line, before, amountMinor }: Part, taxIncluded: boolean): NewLine {
  const whole = { amountMinor: amountOf(line, taxIncluded), taxMinor: line.taxMinor };
  const { serviceId, partId, appointmentId, description, taxClass, taxRatePercent } = line;
  return {
    ...{ serviceId, partId, appointmentId, creditsLineId: line.id, description, quantity: '1' },
    ...{ unitPriceMinor: amountMinor, discountPercent: null, discountMinor: null, takenOffMinor: 0 },
    ...{ taxClass, taxRatePercent },
    ...withTax(amountMinor, taxOfPart(whole, before, amountMinor), taxIncluded),
  };
}

const amountOf = (line: LineRecord, taxIncluded: boolean): number =>
  taxIncluded ? line.grossMinor : line.netMinor;
