import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import {
  draftReceipt,
  freeLine,
  issueDocument,
  issuedReceipt,
  readDocument,
  setUpAccounts,
} from '../helpers/accounts.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];

let api: TestApi;
let studio: TestStudio;
let clientId: string;
let partId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ clientId } = await takeOnClient(studio.owner));
  await setUpAccounts(studio.owner);
  const body = {
    name: 'Cleat, three-bolt, pair',
    kind: 'cleat' as const,
    priceMinor: 1999,
    taxClass: 'reduced',
  };
  partId = (await dataOf(studio.owner.POST('/v1/parts', { body }))).id;
});
afterAll(() => api.close());

const credit = (documentId: string, body: Schemas['CreateCreditNoteRequest']) =>
  studio.desk.POST('/v1/account-documents/{documentId}/credit-notes', {
    params: { path: { documentId } },
    body,
  });
const change = ({ id, version }: { id: string; version: number }, body: Schemas['DocumentContentRequest']) =>
  studio.desk.PUT('/v1/account-documents/{documentId}', {
    params: { path: { documentId: id }, header: { 'If-Match': `"${version}"` } },
    body,
  });

describe('how the studio sells', () => {
  it('is the owner’s to say, once', async () => {
    const rate = { taxClass: 'zero', taxRatePercent: '0', validFrom: '2026-01-01' };
    expect((await studio.desk.POST('/v1/tax-rates', { body: rate })).response.status).toBe(403);
    const part = { name: 'Own price', kind: 'other' as const, priceMinor: 1, taxClass: 'standard' };
    expect((await studio.desk.POST('/v1/parts', { body: part })).response.status).toBe(403);
    const again = { currency: 'EUR', taxIncluded: true, sellerName: 'Another' };
    expect((await studio.owner.POST('/v1/account-settings', { body: again })).error).toMatchObject({
      ...{ status: 409, code: 'accounts.already-set-up' },
    });
  });

  it('has one rate a class and day, and takes that of the day of supply', async () => {
    const old = await dataOf(
      studio.owner.POST('/v1/tax-rates', {
        body: { taxClass: 'shifting', taxRatePercent: '10', validFrom: '2026-01-01' },
      }),
    );
    const next = { taxClass: 'shifting', taxRatePercent: '8.5', validFrom: '2026-07-01' };
    expect((await studio.owner.POST('/v1/tax-rates', { body: next })).error).toMatchObject({
      code: 'accounts.rates-overlap',
    });
    await dataOf(
      studio.owner.PATCH('/v1/tax-rates/{taxRateId}', {
        params: { path: { taxRateId: old.id }, header: { 'If-Match': '"1"' } },
        body: { validUntil: '2026-06-30' },
      }),
    );
    await dataOf(studio.owner.POST('/v1/tax-rates', { body: next }));
    const rateOn = async (suppliedOn: string) => {
      const lines = [freeLine(1000, { taxClass: 'shifting' })];
      return (await draftReceipt(studio.desk, { suppliedOn, lines })).taxes[0]?.taxRatePercent;
    };
    expect([await rateOn('2026-06-30'), await rateOn('2026-07-01')]).toEqual(['10', '8.5']);
    const before = await studio.desk.POST('/v1/account-documents', {
      body: { kind: 'receipt', suppliedOn: '2025-12-31', lines: [freeLine(1, { taxClass: 'shifting' })] },
    });
    expect(before.error).toMatchObject({ status: 422, errors: [{ field: 'lines.0.taxClass' }] });
  });

  it('gives a service of a tax class the rate of the class', async () => {
    const service = await dataOf(
      studio.owner.POST('/v1/services', {
        body: {
          ...{ name: 'Pedal check', durationMinutes: 30, taxClass: 'reduced' },
          price: { amountMinor: 11_200, currency: 'EUR' },
        },
      }),
    );
    expect(service).toMatchObject({ taxRatePercent: '12', price: { netMinor: 10_000, taxMinor: 1200 } });
    const { lines } = await draftReceipt(studio.desk, { lines: [{ serviceId: service.id }] });
    expect(lines).toMatchObject([{ description: 'Pedal check', taxClass: 'reduced', grossMinor: 11_200 }]);
  });
});

describe('a receipt', () => {
  it('has lines of visits, parts and its own, and adds up', async () => {
    const service = {
      name: 'Cleat fit',
      durationMinutes: 45,
      price: { amountMinor: 10_000, currency: 'EUR' },
    };
    const { id: serviceId } = await dataOf(
      studio.owner.POST('/v1/services', { body: { ...service, taxRatePercent: '20', taxIncluded: false } }),
    );
    const { id: appointmentId } = await dataOf(
      studio.desk.POST('/v1/appointments', {
        body: {
          ...{ clientId, serviceId, roomId: studio.roomId, fitterId: studio.owner.signedIn.id },
          startsAt: '2089-05-02T09:00:00Z',
        },
      }),
    );
    const draft = await draftReceipt(studio.desk, {
      clientId,
      discount: { percent: '5' },
      lines: [
        { appointmentId },
        { partId, quantity: '2', discount: { amountMinor: 98 } },
        freeLine(2000, { description: 'Insole, cut to size', discount: { percent: '50' } }),
      ],
    });
    expect(draft).toMatchObject({ state: 'draft', number: null, currency: 'EUR', taxIncluded: true });
    expect(draft.lines.map(({ description, grossMinor }) => [description, grossMinor])).toEqual([
      ['Cleat fit', 11_400],
      ['Cleat, three-bolt, pair', 3705],
      ['Insole, cut to size', 950],
    ]);
    expect(draft.taxes.map(({ taxRatePercent, taxMinor }) => [taxRatePercent, taxMinor])).toEqual([
      ['20', 1900],
      ['12', 397],
      ['25', 190],
    ]);
    expect(draft).toMatchObject({ grossMinor: 16_055, taxMinor: 2487, netMinor: 13_568, gross: '160.55' });
    const issued = await dataOf(issueDocument(studio.desk, draft));
    expect(issued).toMatchObject({ state: 'issued', openMinor: 16_055, version: draft.version + 1 });
    expect(issued.number).toMatch(/^R-\d{4}-\d{5}$/);
    expect(issued.buyerName).not.toBeNull();
  });

  it.each([
    ['nothing told of a line', { lines: [{ unitPriceMinor: 5 }] }, 400, 'lines.0.description'],
    ['both discounts', { discount: { percent: '1', amountMinor: 1 } }, 400, 'discount'],
    [
      'a discount beyond the line',
      { lines: [freeLine(5, { discount: { amountMinor: 6 } })] },
      422,
      'lines.0.discount',
    ],
    ['a discount beyond the whole', { discount: { amountMinor: 101 } }, 422, 'discount'],
    [
      'a part of nobody',
      { lines: [{ partId: '0199d000-0000-7000-8000-00000000ffff' }] },
      422,
      'lines.0.partId',
    ],
    ['none of a thing', { lines: [freeLine(5, { quantity: '0' })] }, 400, 'lines.0.quantity'],
    [
      'a tax class without a rate',
      { lines: [freeLine(5, { taxClass: 'unheard_of' })] },
      422,
      'lines.0.taxClass',
    ],
  ])('is refused with %s', async (_, wrong, status, field) => {
    const { error } = await studio.desk.POST('/v1/account-documents', {
      body: { kind: 'receipt', lines: [freeLine(100)], ...wrong },
    });
    expect(error).toMatchObject({ status, errors: [{ field }] });
  });

  it('is refused for a visit of somebody else and a price in another currency', async () => {
    const { id: serviceId } = await dataOf(
      studio.owner.POST('/v1/services', {
        body: { name: 'Abroad', durationMinutes: 30, price: { amountMinor: 100, currency: 'JPY' } },
      }),
    );
    const refused = async (line: Schemas['LineRequest']) =>
      (await studio.desk.POST('/v1/account-documents', { body: { kind: 'quote', lines: [line] } })).error;
    expect(await refused({ serviceId })).toMatchObject({ status: 422, errors: [{ field: 'lines.0' }] });
    const visit = await dataOf(
      studio.desk.POST('/v1/appointments', {
        body: {
          ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId },
          ...{ fitterId: studio.owner.signedIn.id, startsAt: '2089-06-02T09:00:00Z' },
        },
      }),
    );
    expect(await refused({ appointmentId: visit.id })).toMatchObject({
      errors: [{ field: 'lines.0.appointmentId' }],
    });
  });

  it('is changed as a draft by whoever saw it last, and not at all once issued', async () => {
    const draft = await draftReceipt(studio.desk, { lines: [freeLine(100)] });
    const changed = await dataOf(
      change(draft, { lines: [freeLine(200), freeLine(300)], note: 'Thank you.' }),
    );
    expect(changed).toMatchObject({ grossMinor: 500, note: 'Thank you.', version: 2 });
    expect((await change(draft, { lines: [freeLine(1)] })).error).toMatchObject({ status: 412 });
    const issued = await dataOf(issueDocument(studio.desk, changed));
    expect((await change(issued, { lines: [freeLine(1)] })).error).toMatchObject({
      ...{ status: 409, code: 'accounts.not-possible', state: 'issued', allowed: ['credit'] },
    });
    expect(await readDocument(studio.desk, issued.id)).toEqual(issued);
  });

  it('cannot be changed behind the API either', async () => {
    const { id } = await issuedReceipt(studio.desk, { lines: [freeLine(100)] });
    for (const url of [api.database.apiUrl, api.database.workerUrl, api.database.ownerUrl]) {
      const database = new pg.Client({ connectionString: url });
      await database.connect();
      try {
        await database.query(`SELECT set_config('app.studio_id', $1, false)`, [studio.studio.studioId]);
        for (const statement of [
          `UPDATE account_documents SET gross_minor = 1 WHERE id = '${id}'`,
          `UPDATE account_lines SET gross_minor = 1 WHERE document_id = '${id}'`,
          `DELETE FROM account_lines WHERE document_id = '${id}'`,
          `DELETE FROM account_documents WHERE id = '${id}'`,
          `UPDATE payments SET amount_minor = 1`,
        ]) {
          // Denied by privilege, or by the trigger; the owner of the schema meets no payments to change.
          const failure = await database.query(statement).then(
            ({ rowCount }) => rowCount,
            (error: unknown) => (error as { code: string }).code,
          );
          expect([statement, ['42501', '23001', 0].includes(failure ?? -1)]).toEqual([statement, true]);
        }
      } finally {
        await database.end();
      }
    }
    expect(await readDocument(studio.desk, id)).toMatchObject({ grossMinor: 100 });
  });

  it('is put aside as a draft and takes no number', async () => {
    const { id, version } = await draftReceipt(studio.desk, { lines: [freeLine(100)] });
    const of = { params: { path: { documentId: id }, header: { 'If-Match': `"${version}"` } } };
    const gone = await dataOf(studio.desk.POST('/v1/account-documents/{documentId}/discard', of));
    expect(gone).toMatchObject({ state: 'discarded', number: null });
    expect((await issueDocument(studio.desk, gone)).error).toMatchObject({ status: 409, allowed: [] });
  });

  it('is nobody else’s to see', async () => {
    const { id } = await draftReceipt(studio.desk, { lines: [freeLine(100)] });
    const other = await openTestStudio(api);
    const read = await other.owner.GET('/v1/account-documents/{documentId}', {
      params: { path: { documentId: id } },
    });
    expect(read.response.status).toBe(404);
  });
});

describe('numbers', () => {
  it('have no gap and no double while 200 are issued at once and half of them fail', async () => {
    const other = await openTestStudio(api);
    await setUpAccounts(other.owner);
    const lines = [freeLine(100)];
    const drafts = await Promise.all(Array.from({ length: 100 }, () => draftReceipt(other.desk, { lines })));
    const answers = await Promise.all(
      drafts.flatMap((draft) => [issueDocument(other.desk, draft), issueDocument(other.desk, draft)]),
    );
    const issued = answers.flatMap(({ data }) => (data ? [data] : []));
    const failed = answers.flatMap(({ error, response }) => (error ? [response.status] : []));
    expect([issued.length, failed.length]).toEqual([100, 100]);
    expect(failed.filter((status) => status !== 409 && status !== 412)).toEqual([]);
    // 412: it had taken a number when it found the draft changed, and gave it back.
    expect(failed).toContain(412);
    const byNumber = issued.sort((one, another) => ((one.number ?? '') < (another.number ?? '') ? -1 : 1));
    const year = byNumber[0]?.issuedAt?.slice(0, 4) ?? '';
    expect(byNumber.map(({ number }) => number)).toEqual(
      Array.from({ length: 100 }, (_, index) => `R-${year}-${String(index + 1).padStart(5, '0')}`),
    );
    const times = byNumber.map(({ issuedAt }) => issuedAt ?? '');
    expect([...times].sort()).toEqual(times);
  });

  it('begin anew each year of the studio’s calendar, and in each series', async () => {
    const other = await openTestStudio(api);
    await setUpAccounts(other.owner);
    const lines = [freeLine(100)];
    const first = await issuedReceipt(other.desk, { lines });
    const north = await issuedReceipt(other.desk, { lines, series: 'NORTH' });
    const seconds =
      (Date.parse(`${Number(first.issuedAt?.slice(0, 4)) + 1}-01-02T00:00:00Z`) - Date.now()) / 1000;
    await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: Math.ceil(seconds) } }));
    const next = await issuedReceipt(other.desk, { lines });
    const year = Number(first.issuedAt?.slice(0, 4));
    expect([first.number, north.number, next.number]).toEqual([
      ...[`R-${year}-00001`, `NORTH-${year}-00001`, `R-${year + 1}-00001`],
    ]);
  });
});

describe('a quote', () => {
  it('becomes a receipt at its prices', async () => {
    const body = { kind: 'quote' as const, clientId, validUntil: '2090-01-01', discount: { percent: '10' } };
    const draft = await dataOf(
      studio.desk.POST('/v1/account-documents', { body: { ...body, lines: [{ partId, quantity: '3' }] } }),
    );
    const receipt = () =>
      studio.desk.POST('/v1/account-documents/{documentId}/receipt', {
        params: { path: { documentId: draft.id } },
      });
    expect((await receipt()).error).toMatchObject({ status: 409, allowed: ['change', 'issue', 'discard'] });
    const quote = await dataOf(issueDocument(studio.desk, draft));
    expect(quote.number).toMatch(/^Q-/);
    const part = await dataOf(studio.owner.GET('/v1/parts/{partId}', { params: { path: { partId } } }));
    await dataOf(
      studio.owner.PATCH('/v1/parts/{partId}', {
        params: { path: { partId }, header: { 'If-Match': `"${part.version}"` } },
        body: { priceMinor: 9999 },
      }),
    );
    expect(await dataOf(receipt())).toMatchObject({
      ...{ kind: 'receipt', state: 'draft', quoteId: quote.id, clientId, grossMinor: quote.grossMinor },
      lines: [{ partId, quantity: '3', unitPriceMinor: 1999 }],
    });
  });
});

describe('a credit note', () => {
  it('takes back a part, then the rest, to the minor unit', async () => {
    const receipt = await issuedReceipt(studio.desk, {
      lines: [freeLine(333, { quantity: '3' }), freeLine(1000, { taxClass: 'reduced' })],
    });
    const lineId = receipt.lines[0]?.id ?? '';
    const part = await dataOf(
      credit(receipt.id, { reason: 'Tape torn.', lines: [{ lineId, amountMinor: 500 }] }),
    );
    expect(part).toMatchObject({
      kind: 'credit_note',
      state: 'issued',
      receiptId: receipt.id,
      grossMinor: 500,
    });
    expect(part.number).toMatch(/^C-/);
    const tooMuch = await credit(receipt.id, { reason: 'More.', lines: [{ lineId, amountMinor: 500 }] });
    expect(tooMuch.error).toMatchObject({
      ...{ status: 409, code: 'accounts.more-than-is-left', leftMinor: 499 },
      errors: [{ field: 'lines.0.amountMinor' }],
    });
    const rest = await dataOf(credit(receipt.id, { reason: 'All of it.' }));
    expect(part.grossMinor + rest.grossMinor).toBe(receipt.grossMinor);
    expect(part.taxMinor + rest.taxMinor).toBe(receipt.taxMinor);
    expect(await readDocument(studio.desk, receipt.id)).toMatchObject({
      ...{ state: 'credited', creditedMinor: receipt.grossMinor, openMinor: 0 },
    });
    expect((await credit(receipt.id, { reason: 'Again.' })).error).toMatchObject({
      status: 409,
      state: 'credited',
    });
  });

  it('never takes back more than the receipt, also by ten at once', async () => {
    const receipt = await issuedReceipt(studio.desk, { lines: [freeLine(1000)] });
    const lineId = receipt.lines[0]?.id ?? '';
    const answers = await Promise.all(
      Array.from({ length: 10 }, () =>
        credit(receipt.id, { reason: 'Returned.', lines: [{ lineId, amountMinor: 400 }] }),
      ),
    );
    expect(answers.filter(({ data }) => data)).toHaveLength(2);
    expect((await readDocument(studio.desk, receipt.id)).creditedMinor).toBe(800);
  });

  it('corrects net prices as well', async () => {
    const other = await openTestStudio(api);
    await setUpAccounts(other.owner, { taxIncluded: false, currency: 'KWD' });
    const receipt = await issuedReceipt(other.desk, { lines: [freeLine(1001), freeLine(7)] });
    expect(receipt).toMatchObject({ netMinor: 1008, taxMinor: 252, gross: '1.260' });
    const params = { path: { documentId: receipt.id } };
    const note = await dataOf(
      other.desk.POST('/v1/account-documents/{documentId}/credit-notes', {
        params,
        body: { reason: 'Mistake.' },
      }),
    );
    expect(note).toMatchObject({ netMinor: 1008, taxMinor: 252, taxes: receipt.taxes });
  });
});

describe('the list', () => {
  it('is paged by a cursor that rows added meanwhile do not move', async () => {
    const other = await openTestStudio(api);
    await setUpAccounts(other.owner);
    const lines = [freeLine(100)];
    const before: string[] = [];
    for (let n = 0; n < 5; n += 1) before.push((await draftReceipt(other.desk, { lines })).id);
    const seen: string[] = [];
    let after: string | undefined;
    do {
      const query: { limit: number; after?: string } = { limit: 2, ...(after !== undefined && { after }) };
      const page = await dataOf(other.desk.GET('/v1/account-documents', { params: { query } }));
      seen.push(...page.items.map(({ id }) => id));
      after = page.next ?? undefined;
      if (seen.length === 2) await draftReceipt(other.desk, { lines });
    } while (after !== undefined);
    expect(seen.slice(0, 5)).toEqual(before);
    expect(new Set(seen).size).toBe(6);
  });

  it('is chosen by kind, state and client', async () => {
    const list = (query: object) => dataOf(studio.desk.GET('/v1/account-documents', { params: { query } }));
    const credited = await list({ state: 'credited' });
    expect(credited.items.length).toBeGreaterThan(0);
    for (const { state, kind } of credited.items) expect([state, kind]).toEqual(['credited', 'receipt']);
    const quotes = await list({ kind: 'quote', clientId });
    expect(quotes.items.map(({ kind }) => kind)).toEqual(['quote']);
  });
});

describe('on paper', () => {
  it('is a PDF of the studio’s paper that carries its number', async () => {
    const { id, number } = await issuedReceipt(studio.desk, { lines: [freeLine(100)] });
    const { data, response } = await studio.desk.GET('/v1/account-documents/{documentId}/document.pdf', {
      params: { path: { documentId: id } },
      parseAs: 'arrayBuffer',
    });
    expect(response.headers.get('content-type')).toBe('application/pdf');
    expect(response.headers.get('content-disposition')).toContain(`${String(number)}.pdf`);
    const pdf = Buffer.from(data as ArrayBuffer).toString('latin1');
    expect(pdf).toContain('/MediaBox [0 0 595.28 841.89]');
    expect(pdf).toMatch(/\/MarkInfo/);
  });
});
