import { dataOf, ProblemError, type StudioClient } from '@studio/api-client';
import type { Booked } from './at-the-desk.js';
import { refused, type Studio } from './studio.js';
import { holds, say } from './tell.js';

const price = 180_000;

/** A deposit, a receipt for the visit and a pair of cleats, the rest by card; then one cleat too many is taken back. */
export async function payFor(studio: Studio, { rider, clientId, appointmentId }: Booked): Promise<void> {
  const { owner, desk } = studio;
  await setUp(owner);
  const deposit = await dataOf(
    desk.POST('/v1/payments', {
      body: { kind: 'deposit', method: 'bank_transfer', amountMinor: 50_000, clientId },
    }),
  );
  const partId = await cleats(owner);
  const draft = await dataOf(
    desk.POST('/v1/account-documents', {
      body: {
        ...{ kind: 'receipt', clientId, discount: { percent: '5' } },
        lines: [
          { appointmentId, serviceId: studio.serviceId, unitPriceMinor: price, taxClass: 'standard' },
          { partId, quantity: '2' },
        ],
      },
    }),
  );
  const of = { path: { documentId: draft.id } };
  const receipt = await dataOf(
    desk.POST('/v1/account-documents/{documentId}/issue', {
      params: { ...of, header: { 'If-Match': `"${draft.version}"` } },
    }),
  );
  const sum = receipt.lines.reduce((total, line) => total + line.grossMinor, 0);
  holds('the lines of a receipt add up to it', sum === receipt.grossMinor);

  const params = { path: { paymentId: deposit.id } };
  const { openMinor } = await dataOf(
    desk.POST('/v1/payments/{paymentId}/uses', { params, body: { documentId: receipt.id } }),
  );
  const pay = (amountMinor: number) =>
    dataOf(
      desk.POST('/v1/payments', {
        body: { kind: 'payment', method: 'card_terminal', amountMinor, documentId: receipt.id },
      }),
    );
  const tooMuch = await refused(pay(openMinor + 1));
  holds('no more is taken than is open', tooMuch.code === 'accounts.more-than-is-left');
  await pay(openMinor);
  say(
    `${rider.client.givenName} gets receipt ${receipt.number ?? ''} over ${receipt.gross} ${receipt.currency}; the deposit counts towards it, the rest is paid by card.`,
  );

  const [, line] = receipt.lines;
  const note = await dataOf(
    desk.POST('/v1/account-documents/{documentId}/credit-notes', {
      params: of,
      body: {
        reason: 'One pair was not needed.',
        lines: [{ lineId: line?.id ?? '', amountMinor: Math.floor((line?.grossMinor ?? 0) / 2) }],
      },
    }),
  );
  await dataOf(
    desk.POST('/v1/payments', {
      body: { kind: 'refund', method: 'cash', amountMinor: note.grossMinor, documentId: note.id },
    }),
  );
  const after = await dataOf(desk.GET('/v1/account-documents/{documentId}', { params: of }));
  holds('a receipt stays as it was issued', after.grossMinor === receipt.grossMinor && after.openMinor === 0);
  say(
    `One pair comes back: credit note ${note.number ?? ''} over ${note.gross}, paid back in cash. The receipt stays as it is.`,
  );
}

/** Unless it was done in an earlier run. */
async function setUp(owner: StudioClient): Promise<void> {
  const { response } = await owner.GET('/v1/account-settings');
  if (response.status !== 404) return;
  await dataOf(
    owner.POST('/v1/account-settings', {
      body: { currency: 'DKK', taxIncluded: true, sellerName: 'Harbour Lane Fitting' },
    }),
  );
  await dataOf(
    owner.POST('/v1/tax-rates', {
      body: { taxClass: 'standard', taxRatePercent: '25', validFrom: '2020-01-01' },
    }),
  );
}

async function cleats(owner: StudioClient): Promise<string> {
  const body = { name: 'Cleats, three-bolt, pair', kind: 'cleat' as const, priceMinor: 19_900 };
  try {
    return (await dataOf(owner.POST('/v1/parts', { body: { ...body, taxClass: 'standard' } }))).id;
  } catch (error) {
    if (!(error instanceof ProblemError) || error.code !== 'accounts.name-taken') throw error;
    const { items } = await dataOf(owner.GET('/v1/parts'));
    return items.find(({ name }) => name === body.name)?.id ?? '';
  }
}
