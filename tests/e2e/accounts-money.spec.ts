import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { parse } from 'csv-parse/sync';
import pg from 'pg';
import { freeLine, issuedReceipt, readDocument, setUpAccounts } from '../helpers/accounts.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];

let api: TestApi;
let studio: TestStudio;
let clientId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  await setUpAccounts(studio.owner);
  ({ clientId } = await takeOnClient(studio.owner));
});
afterAll(() => api.close());

const record = (body: Schemas['CreatePaymentRequest'], by = studio) => by.desk.POST('/v1/payments', { body });
const pay = (documentId: string, amountMinor: number, method: 'cash' | 'card_terminal' = 'cash') =>
  record({ kind: 'payment', method, amountMinor, documentId });
const reverse = (paymentId: string) =>
  studio.desk.POST('/v1/payments/{paymentId}/reversal', {
    params: { path: { paymentId } },
    body: { reason: 'Entered twice.' },
  });
const useDeposit = (paymentId: string, body: Schemas['UseDepositRequest']) =>
  studio.desk.POST('/v1/payments/{paymentId}/uses', { params: { path: { paymentId } }, body });
const credit = (documentId: string) =>
  dataOf(
    studio.desk.POST('/v1/account-documents/{documentId}/credit-notes', {
      params: { path: { documentId } },
      body: { reason: 'Returned.' },
    }),
  );
const balance = (id: string) =>
  dataOf(studio.desk.GET('/v1/clients/{clientId}/balance', { params: { path: { clientId: id } } }));
const receiptOf = (amountMinor: number, of: string = clientId) =>
  issuedReceipt(studio.desk, { clientId: of, lines: [freeLine(amountMinor)] });
const newClient = async () => (await takeOnClient(studio.owner)).clientId;

describe('money for a receipt', () => {
  it('is recorded as it was handed over, and never more than is open', async () => {
    const receipt = await receiptOf(10_000);
    const first = await dataOf(pay(receipt.id, 4000, 'card_terminal'));
    expect(first).toMatchObject({ kind: 'payment', amount: '40.00', clientId, documentId: receipt.id });
    expect((await pay(receipt.id, 6001)).error).toMatchObject({
      ...{ status: 409, code: 'accounts.more-than-is-left', leftMinor: 6000 },
      errors: [{ field: 'amountMinor' }],
    });
    await dataOf(pay(receipt.id, 6000));
    expect(await readDocument(studio.desk, receipt.id)).toMatchObject({ paidMinor: 10_000, openMinor: 0 });
  });

  it('is not taken twice by ten who record it at once', async () => {
    const receipt = await receiptOf(1000);
    const answers = await Promise.all(Array.from({ length: 10 }, () => pay(receipt.id, 1000)));
    expect(answers.filter(({ data }) => data)).toHaveLength(1);
    expect((await readDocument(studio.desk, receipt.id)).openMinor).toBe(0);
  });

  it('is taken back as a mistake, once, and both records stay', async () => {
    const receipt = await receiptOf(700);
    const { id } = await dataOf(pay(receipt.id, 700));
    const back = await dataOf(reverse(id));
    expect(back).toMatchObject({
      kind: 'reversal',
      amountMinor: -700,
      reversesId: id,
      note: 'Entered twice.',
    });
    for (const again of [id, back.id]) {
      expect((await reverse(again)).error).toMatchObject({ code: 'accounts.payment-not-possible' });
    }
    expect((await readDocument(studio.desk, receipt.id)).openMinor).toBe(700);
    const { items } = await dataOf(
      studio.desk.GET('/v1/payments', { params: { query: { documentId: receipt.id } } }),
    );
    expect(items.map(({ amountMinor }) => amountMinor)).toEqual([700, -700]);
  });

  it('is given back for a credit note, as much as the client paid', async () => {
    const receipt = await receiptOf(1000);
    await dataOf(pay(receipt.id, 600));
    const note = await credit(receipt.id);
    const refund = (amountMinor: number) =>
      record({ kind: 'refund', method: 'cash', amountMinor, documentId: note.id });
    expect((await refund(601)).error).toMatchObject({ leftMinor: 600 });
    expect(await dataOf(refund(600))).toMatchObject({ kind: 'refund', amountMinor: -600 });
    expect((await refund(1)).error).toMatchObject({ leftMinor: 0 });
    expect(await readDocument(studio.desk, receipt.id)).toMatchObject({ state: 'credited', openMinor: 0 });
  });

  it.each([
    ['a payment of nothing named', { kind: 'payment' as const }, 400, 'documentId'],
    ['a deposit of nobody', { kind: 'deposit' as const }, 400, 'clientId'],
    ['nothing', { kind: 'deposit' as const, amountMinor: 0 }, 400, 'amountMinor'],
    [
      'an unknown receipt',
      { kind: 'payment' as const, documentId: '0199d000-0000-7000-8000-00000000ffff' },
      422,
      'documentId',
    ],
  ])('is refused for %s', async (_, wrong, status, field) => {
    const { error } = await record({ method: 'cash', amountMinor: 1, ...wrong });
    expect(error).toMatchObject({ status, errors: [{ field }] });
  });
});

describe('a deposit', () => {
  it('counts towards a receipt and what is left is given back', async () => {
    const guest = await newClient();
    const deposit = await dataOf(
      record({ kind: 'deposit', method: 'bank_transfer', amountMinor: 30_000, clientId: guest }),
    );
    expect(deposit.unusedMinor).toBe(30_000);
    const receipt = await receiptOf(25_000, guest);
    expect(await balance(guest)).toEqual([
      { currency: 'EUR', openMinor: 25_000, depositsMinor: 30_000, balanceMinor: -5000, balance: '-50.00' },
    ]);
    expect(await dataOf(useDeposit(deposit.id, { documentId: receipt.id }))).toMatchObject({
      ...{ amountMinor: 25_000, unusedMinor: 5000, openMinor: 0 },
    });
    expect((await reverse(deposit.id)).error).toMatchObject({ code: 'accounts.payment-not-possible' });
    const refund = (amountMinor: number) =>
      record({ kind: 'refund', method: 'cash', amountMinor, depositId: deposit.id });
    expect((await refund(5001)).error).toMatchObject({ leftMinor: 5000 });
    await dataOf(refund(5000));
    expect(await balance(guest)).toMatchObject([{ openMinor: 0, depositsMinor: 0, balanceMinor: 0 }]);
  });

  it('is used by its own client only, and once, also by ten at once', async () => {
    const guest = await newClient();
    const deposit = await dataOf(
      record({ kind: 'deposit', method: 'cash', amountMinor: 500, clientId: guest }),
    );
    const others = await receiptOf(500);
    expect((await useDeposit(deposit.id, { documentId: others.id })).error).toMatchObject({
      errors: [{ field: 'documentId' }],
    });
    const receipts = await Promise.all(Array.from({ length: 10 }, () => receiptOf(300, guest)));
    const answers = await Promise.all(
      receipts.map(({ id }) => useDeposit(deposit.id, { documentId: id, amountMinor: 300 })),
    );
    expect(answers.filter(({ data }) => data)).toHaveLength(1);
    expect((await balance(guest))[0]).toMatchObject({ depositsMinor: 200, openMinor: 2700 });
  });
});

describe('the books', () => {
  const day = (iso: string): string =>
    new Intl.DateTimeFormat('sv-SE', { timeZone: 'Europe/Copenhagen' }).format(new Date(iso));
  let own: TestStudio;
  let of: { from: string; until: string };

  beforeAll(async () => {
    own = await openTestStudio(api);
    await setUpAccounts(own.owner);
    const { clientId: buyer } = await takeOnClient(own.owner);
    const lines = [freeLine(12_500), freeLine(1120, { taxClass: 'reduced' })];
    const receipt = await issuedReceipt(own.desk, { clientId: buyer, buyerName: '=HYPERLINK("x")', lines });
    await dataOf(
      own.desk.POST('/v1/account-documents/{documentId}/credit-notes', {
        params: { path: { documentId: receipt.id } },
        body: { reason: 'Part.', lines: [{ lineId: receipt.lines[0]?.id ?? '', amountMinor: 2500 }] },
      }),
    );
    const take = (body: Schemas['CreatePaymentRequest']) => dataOf(record(body, own));
    await take({
      kind: 'payment',
      method: 'cash',
      amountMinor: 11_120,
      documentId: receipt.id,
      note: '@sum',
    });
    const deposit = await take({
      kind: 'deposit',
      method: 'card_terminal',
      amountMinor: 900,
      clientId: buyer,
    });
    await take({ kind: 'refund', method: 'cash', amountMinor: 400, depositId: deposit.id });
    const at = receipt.issuedAt ?? '';
    of = { from: day(at), until: day(new Date(Date.parse(at) + 86_400_000).toISOString()) };
  });

  const csvOf = async (path: '/v1/books/sales.csv' | '/v1/books/money.csv') => {
    const { data } = await own.owner.GET(path, { params: { query: of }, parseAs: 'text' });
    return parse(data as unknown as string, { columns: true, bom: true });
  };

  it('tell each day by rate and by method', async () => {
    const totals = await dataOf(own.desk.GET('/v1/day-totals', { params: { query: of } }));
    expect(totals).toMatchObject([
      {
        ...{ day: of.from, currency: 'EUR', receipts: 1, creditNotes: 1 },
        ...{ netMinor: 9000, taxMinor: 2120, grossMinor: 11_120 },
        taxes: [
          { taxClass: 'reduced', netMinor: 1000, taxMinor: 120, grossMinor: 1120 },
          { taxClass: 'standard', netMinor: 8000, taxMinor: 2000, grossMinor: 10_000 },
        ],
        methods: [
          { method: 'card_terminal', takenMinor: 900, givenBackMinor: 0, totalMinor: 900 },
          { method: 'cash', takenMinor: 11_120, givenBackMinor: 400, totalMinor: 10_720 },
        ],
      },
    ]);
    const backwards = { from: of.until, until: of.from };
    const { error } = await own.desk.GET('/v1/day-totals', { params: { query: backwards } });
    expect(error).toMatchObject({ status: 400, errors: [{ field: 'until' }] });
  });

  it('go to the bookkeeper with every amount, and no formula of anybody’s', async () => {
    const sales = await csvOf('/v1/books/sales.csv');
    expect(sales).toMatchObject([
      {
        kind: 'receipt',
        tax_class: 'reduced',
        net: '10.00',
        tax: '1.20',
        buyer: `'=HYPERLINK("x")`,
        corrects: '',
      },
      {
        kind: 'receipt',
        tax_class: 'standard',
        net: '100.00',
        tax: '25.00',
        gross: '125.00',
        currency: 'EUR',
      },
      { kind: 'credit_note', tax_class: 'standard', net: '-20.00', tax: '-5.00', gross: '-25.00' },
    ]);
    const [first, , last] = sales as { number: string; corrects: string }[];
    expect(last?.corrects).toBe(first?.number);
    expect(await csvOf('/v1/books/money.csv')).toMatchObject([
      { kind: 'payment', method: 'cash', amount: '111.20', note: `'@sum`, document: first?.number },
      { kind: 'deposit', method: 'card_terminal', amount: '9.00', document: '' },
      { kind: 'refund', amount: '-4.00' },
    ]);
    const desk = await own.desk.GET('/v1/books/sales.csv', { params: { query: of }, parseAs: 'text' });
    expect(desk.response.status).toBe(403);
  });

  it('are read on and on, each record once', async () => {
    const database = new pg.Client({ connectionString: api.database.adminUrl });
    await database.connect();
    try {
      await database.query(
        `INSERT INTO payments (studio_id, kind, method, amount_minor, currency, client_id, recorded_by)
         SELECT p.studio_id, p.kind, p.method, n, p.currency, p.client_id, p.recorded_by
           FROM payments p, generate_series(1, 1200) n WHERE p.studio_id = $1 AND p.kind = 'deposit'`,
        [own.studio.studioId],
      );
    } finally {
      await database.end();
    }
    const ids = (await csvOf('/v1/books/money.csv')).map((row) => (row as { payment_id: string }).payment_id);
    expect([ids.length, new Set(ids).size]).toEqual([1203, 1203]);
  });
});
