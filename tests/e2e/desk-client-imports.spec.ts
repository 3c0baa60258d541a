import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { parse } from 'csv-parse/sync';
import { eventually } from '../helpers/mail.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type Import = components['schemas']['ClientImportResponse'];

let api: TestApi;
let studio: TestStudio;
let worker: ReturnType<typeof startWorker>;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  worker = startWorker(api, `imports-${Date.now()}`);
});
afterAll(async () => {
  await stop(worker);
  await api.close();
});

const upload = (text: string, contentType = 'text/csv') =>
  studio.desk.POST('/v1/client-imports', {
    body: text,
    bodySerializer: (body: string) => body,
    headers: { 'content-type': contentType },
  });
const on = ({ id, version }: Import) => ({
  params: { path: { clientImportId: id }, header: { 'If-Match': `"${version}"` } },
});
const map = (list: Import, columns: components['schemas']['ImportColumns']) =>
  studio.desk.PUT('/v1/client-imports/{clientImportId}/mapping', {
    ...on(list),
    body: { columns, dayForm: 'day_first' },
  });
const order = (list: Import) => studio.desk.POST('/v1/client-imports/{clientImportId}/order', on(list));
const rowsOf = async (clientImportId: string) =>
  (
    await dataOf(
      studio.desk.GET('/v1/client-imports/{clientImportId}/rows', { params: { path: { clientImportId } } }),
    )
  ).items;
const decide = (clientImportRowId: string, decision: 'import' | 'leave_out') =>
  studio.desk.PUT('/v1/client-import-rows/{clientImportRowId}/decision', {
    params: { path: { clientImportRowId } },
    body: { decision },
  });
const done = (id: string) =>
  eventually('the import', 20, async () => {
    const list = await dataOf(
      studio.desk.GET('/v1/client-imports/{clientImportId}', { params: { path: { clientImportId: id } } }),
    );
    return list.state === 'done' ? list : undefined;
  });

describe('a list of clients', () => {
  it('is looked through, decided on and taken on, and every row tells what became of it', async () => {
    const known = await dataOf(
      studio.desk.POST('/v1/clients', {
        body: { givenName: 'Sofia', familyName: 'Lindgren', email: 'sofia@riders.example' },
      }),
    );
    const uploaded = await dataOf(
      upload(
        [
          'First name;Last name;E-mail;Birthday;Groups;Shoe size',
          'Ana;Olsen;ana@riders.example;29.02.1984;Team A;42',
          'Sophia;Lindgren;sofia@riders.example;;;',
          'Ben;Adeyemi;not an address;;;',
          'Sophie;Lindgren;sofia@riders.example;;;',
          'Cleo;Marsh;;01.13.1990;;',
          'Dev;Patel;dev@riders.example;;;',
          '=cmd();Evil;;;;',
        ].join('\r\n'),
      ),
    );
    expect(uploaded).toMatchObject({
      ...{ state: 'uploaded', charset: 'utf-8', separator: ';', allowed: ['map', 'delete'] },
      columns: {
        ...{ givenName: 'First name', familyName: 'Last name', email: 'E-mail', bornOn: 'Birthday' },
        tags: 'Groups',
      },
      rows: { unread: 7 },
    });
    const wrong = { ...uploaded.columns, phone: 'Handy' } as components['schemas']['ImportColumns'];
    expect((await map(uploaded, wrong)).error).toMatchObject({
      status: 400,
      errors: [{ field: 'columns.phone' }],
    });
    const mapped = await dataOf(map(uploaded, uploaded.columns as components['schemas']['ImportColumns']));
    expect(mapped).toMatchObject({ state: 'ready', rows: { ready: 5, invalid: 2 } });
    const rows = await rowsOf(mapped.id);
    expect(rows.map(({ row, state, clientId, sameAsRow }) => [row, state, clientId, sameAsRow])).toEqual([
      [1, 'ready', null, null],
      [2, 'ready', known.id, null],
      [3, 'invalid', null, null],
      [4, 'ready', known.id, 2],
      [5, 'invalid', null, null],
      [6, 'ready', null, null],
      [7, 'ready', null, null],
    ]);
    expect(rows[0]?.fields).toEqual({
      ...{ givenName: 'Ana', familyName: 'Olsen', email: 'ana@riders.example' },
      ...{ bornOn: '1984-02-29', tags: ['team_a'] },
    });
    expect(rows[2]?.problems).toMatchObject([{ field: 'email' }]);
    expect(rows[4]?.problems).toMatchObject([{ field: 'bornOn' }]);
    await dataOf(decide(rows[3]?.id ?? '', 'import'));
    await dataOf(decide(rows[5]?.id ?? '', 'leave_out'));
    expect((await order(uploaded)).response.status).toBe(412);
    const ordered = await dataOf(order(mapped));
    expect((await order(ordered)).error).toMatchObject({ status: 409, state: 'ordered', allowed: [] });

    const finished = await done(mapped.id);
    expect(finished.rows).toEqual({ unread: 0, ready: 0, invalid: 2, imported: 3, leftOut: 2 });
    const outcome = await rowsOf(mapped.id);
    expect(outcome.map(({ state }) => state)).toEqual([
      ...['imported', 'left_out', 'invalid', 'imported', 'invalid', 'left_out', 'imported'],
    ]);
    expect(outcome[1]?.clientId).toBe(known.id);
    expect(outcome[0]).toMatchObject({ cells: [], fields: null });
    const ana = await dataOf(
      studio.desk.GET('/v1/clients/{clientId}', {
        params: { path: { clientId: outcome[0]?.clientId ?? '' } },
      }),
    );
    expect(ana).toMatchObject({ givenName: 'Ana', bornOn: '1984-02-29', tags: ['team_a'] });

    await dataOf(studio.desk.DELETE('/v1/client-imports/{clientImportId}', on(finished)));
    const gone = { params: { path: { clientImportId: mapped.id } } };
    expect((await studio.desk.GET('/v1/client-imports/{clientImportId}', gone)).response.status).toBe(404);
  });

  it('that cannot be read is refused, as is one too large or of another type; the fitter takes none on', async () => {
    expect((await upload('a,b\n"1,2\n')).error).toMatchObject({ code: 'client-imports.unreadable' });
    expect((await upload('{}', 'application/json')).response.status).toBe(422);
    expect((await upload(`a\n${'x'.repeat(2 * 1024 * 1024)}`)).response.status).toBe(413);
  });
});

describe('the export', () => {
  it('has every client, and no formula; what it wrote is read back as it was', async () => {
    for (let at = 0; at < 3; at += 1) {
      await dataOf(
        studio.desk.POST('/v1/clients', {
          body: {
            ...{ givenName: `=SUM(A${at})`, familyName: '@Rider', phone: '+45 20 12 34 56' },
            ...{ note: 'Two\nlines, "quoted"', tags: ['a', 'b'] },
          },
        }),
      );
    }
    const { data, response } = await studio.owner.GET('/v1/clients/export.csv', { parseAs: 'text' });
    expect(response.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    const rows = parse<Record<string, string>>(String(data), { columns: true, bom: true });
    const { items } = await dataOf(studio.desk.GET('/v1/clients', { params: { query: { limit: 200 } } }));
    expect(rows.map(({ id }) => id)).toEqual(items.map(({ id }) => id));
    expect(rows.at(-1)).toMatchObject({
      ...{ givenName: "'=SUM(A2)", familyName: "'@Rider", phone: "'+45 20 12 34 56" },
      ...{ note: 'Two\nlines, "quoted"', tags: 'a,b', doNotContact: 'no' },
    });
    const again = await dataOf(upload(String(data)));
    const mapped = await dataOf(map(again, again.columns as components['schemas']['ImportColumns']));
    const back = (await rowsOf(mapped.id)).at(-1);
    expect(back?.fields).toMatchObject({
      ...{ givenName: '=SUM(A2)', familyName: '@Rider', phone: '+45 20 12 34 56' },
      ...{ note: 'Two\nlines, "quoted"', tags: ['a', 'b'], doNotContact: false },
    });
    expect(back?.clientId).not.toBeNull();
    expect((await studio.desk.GET('/v1/clients/export.csv', { parseAs: 'text' })).response.status).toBe(403);
  });
});
