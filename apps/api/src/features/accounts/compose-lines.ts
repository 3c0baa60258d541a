import type { SqlRunner } from '@studio/database';
import {
  DiscountTooLarge,
  priceLines,
  taxed,
  type Discount,
  type LineToPrice,
  type PricedLines,
} from '@studio/money';
import { InvalidRequest, UnknownReference } from '../../http/problem.js';
import { CannotBePriced } from './accounts.errors.js';
import type { DiscountRequest, LineRequest } from './documents.dto.js';
import { findSold, findVisits, type NewLine, type Sold } from './documents.queries.js';
import { taxRatesOn } from './price-list.queries.js';

/** The class of a line whose service keeps a rate of its own. */
const ofNoClass = 'unclassed';

export interface Composed {
  readonly lines: NewLine[];
  readonly totals: Pick<PricedLines, 'netMinor' | 'taxMinor' | 'grossMinor'>;
}

/**
 * What a draft's lines come to: prices from catalogue and price list where the line gives none, tax by the rates of the
 * day of supply.
 *
 * @throws UnknownReference, InvalidRequest, CannotBePriced naming the field
 */
export async function composeLines(
  sql: SqlRunner,
  draft: {
    readonly studioId: string;
    readonly clientId: string | null;
    readonly currency: string;
    readonly taxIncluded: boolean;
    readonly suppliedOn: string;
    readonly discount: DiscountRequest | undefined;
    readonly lines: readonly LineRequest[];
  },
): Promise<Composed> {
  const { studioId, taxIncluded } = draft;
  const visits = await findVisits(sql, { studioId, ids: idsOf(draft.lines, 'appointmentId') });
  const wishes = draft.lines.map((line, index) => ofVisit(line, index, visits, draft.clientId));
  const ids = [...idsOf(wishes, 'serviceId'), ...idsOf(wishes, 'partId')];
  const sold = await findSold(sql, { studioId, ids });
  const rates = await taxRatesOn(sql, { studioId, day: draft.suppliedOn });
  const lines = wishes.map((wish, index) => ({
    wish,
    ...lineToPrice(wish, `lines.${index}`, { sold, rates, ...draft }),
  }));
  const priced = price(
    lines.map(({ line }) => line),
    { taxIncluded, discount: discountOf(draft.discount, 'discount') },
  );
  return {
    totals: priced,
    lines: lines.map(({ wish, line, description }, index): NewLine => {
      const { discountMinor, netMinor, taxMinor, grossMinor } = priced.lines[
        index
      ] as PricedLines['lines'][number];
      const { serviceId = null, partId = null, appointmentId = null } = wish;
      return {
        ...{ serviceId, partId, appointmentId, creditsLineId: null, description },
        ...{ quantity: line.quantity, unitPriceMinor: line.unitPriceMinor },
        discountPercent: wish.discount?.percent ?? null,
        discountMinor: wish.discount?.amountMinor ?? null,
        takenOffMinor: discountMinor,
        ...{ taxClass: line.taxClass, taxRatePercent: line.taxRatePercent, netMinor, taxMinor, grossMinor },
      };
    }),
  };
}

function idsOf(lines: readonly LineRequest[], key: 'serviceId' | 'partId' | 'appointmentId'): string[] {
  return [...new Set(lines.flatMap((line) => line[key] ?? []))];
}

function ofVisit(
  line: LineRequest,
  index: number,
  visits: ReadonlyMap<string, { clientId: string; serviceId: string }>,
  clientId: string | null,
): LineRequest {
  if (line.serviceId !== undefined && line.partId !== undefined) {
    throw new InvalidRequest([
      { field: `lines.${index}.partId`, message: 'must not stand beside serviceId' },
    ]);
  }
  if (line.appointmentId === undefined) return line;
  const visit = visits.get(line.appointmentId);
  if (!visit) throw new UnknownReference(`lines.${index}.appointmentId`);
  if (visit.clientId !== clientId) {
    throw new CannotBePriced(`lines.${index}.appointmentId`, 'is a visit of somebody else');
  }
  const described = line.partId !== undefined || line.unitPriceMinor !== undefined;
  return line.serviceId === undefined && !described ? { ...line, serviceId: visit.serviceId } : line;
}

function lineToPrice(
  wish: LineRequest,
  path: string,
  known: {
    sold: ReadonlyMap<string, Sold>;
    rates: ReadonlyMap<string, string>;
    currency: string;
    taxIncluded: boolean;
  },
): { line: LineToPrice; description: string } {
  const named = wish.serviceId === undefined ? 'partId' : 'serviceId';
  const id = wish[named];
  const item = id === undefined ? undefined : known.sold.get(id);
  if (id !== undefined && !item) throw new UnknownReference(`${path}.${named}`);
  const description = wish.description ?? item?.name;
  if (description === undefined) throw missing(`${path}.description`);
  const tax = taxOf(wish, item, path, known.rates);
  const line = {
    quantity: wish.quantity ?? '1',
    unitPriceMinor: wish.unitPriceMinor ?? listPrice(item, path, tax.taxRatePercent, known),
    discount: discountOf(wish.discount, `${path}.discount`),
    ...tax,
  };
  return { line, description };
}

function taxOf(
  wish: LineRequest,
  item: Sold | undefined,
  path: string,
  rates: ReadonlyMap<string, string>,
): { taxClass: string; taxRatePercent: string } {
  const taxClass = wish.taxClass ?? item?.taxClass ?? null;
  if (taxClass === null) {
    if (item?.taxRatePercent == null) throw missing(`${path}.taxClass`);
    return { taxClass: ofNoClass, taxRatePercent: item.taxRatePercent };
  }
  const taxRatePercent = rates.get(taxClass);
  if (taxRatePercent === undefined) {
    throw new CannotBePriced(`${path}.taxClass`, `${taxClass} has no rate on the day of supply`);
  }
  return { taxClass, taxRatePercent };
}

/** The price of a service that is listed the other way round, with or without tax, is turned to the document's way. */
function listPrice(
  item: Sold | undefined,
  path: string,
  taxRatePercent: string,
  { currency, taxIncluded }: { currency: string; taxIncluded: boolean },
): number {
  if (item?.priceMinor == null) throw missing(`${path}.unitPriceMinor`);
  if (item.currency !== currency) {
    throw new CannotBePriced(
      path,
      `is priced in ${item.currency ?? 'no currency'}, the document in ${currency}`,
    );
  }
  if (item.taxIncluded === null || item.taxIncluded === taxIncluded) return item.priceMinor;
  const { netMinor, grossMinor } = taxed({
    ...{ amountMinor: item.priceMinor, taxRatePercent, taxIncluded: item.taxIncluded },
  });
  return taxIncluded ? grossMinor : netMinor;
}

function discountOf(request: DiscountRequest | undefined, path: string): Discount | null {
  if (request === undefined) return null;
  const { percent, amountMinor } = request;
  if (percent !== undefined && amountMinor === undefined) return { percent };
  if (amountMinor !== undefined && percent === undefined) return { amountMinor };
  throw new InvalidRequest([{ field: path, message: 'must be either percent or amountMinor' }]);
}

function price(
  lines: readonly LineToPrice[],
  options: { taxIncluded: boolean; discount: Discount | null },
): PricedLines {
  try {
    return priceLines({ lines, ...options });
  } catch (error) {
    if (error instanceof DiscountTooLarge) {
      const field = error.line === null ? 'discount' : `lines.${error.line}.discount`;
      throw new CannotBePriced(field, 'must not be more than what it is taken from');
    }
    if (error instanceof RangeError) throw new CannotBePriced('lines', error.message);
    throw error;
  }
}

const missing = (field: string): InvalidRequest =>
  new InvalidRequest([{ field, message: 'must be given where neither catalogue nor price list tells it' }]);
