import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { unzipSync } from 'fflate';
import type { ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { onePixel } from '../helpers/files.js';
import { columnsWith, storedFiles } from '../helpers/everywhere.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { marked, takeOnMarkedPerson } from '../helpers/marked-person.js';
import { takeOnClient, type TestClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type Schemas = components['schemas'];

let api: TestApi;
let here: TestStudio;
let worker: ChildProcess;

beforeAll(async () => {
  api = await startTestApi();
  here = await openTestStudio(api);
  worker = startWorker(api, 'person-rights');
}, 60_000);
afterAll(async () => {
  await stop(worker);
  await api.close();
});

async function known(
  clientId: string,
  kind: Schemas['RecordRightsRequest']['kind'],
): Promise<Schemas['RightsRequestResponse']> {
  const { id: rightsRequestId } = await dataOf(
    here.desk.POST('/v1/clients/{clientId}/rights-requests', {
      params: { path: { clientId } },
      body: { kind },
    }),
  );
  return dataOf(
    here.owner.POST('/v1/rights-requests/{rightsRequestId}/identity-check', {
      params: { path: { rightsRequestId }, header: { 'If-Match': '"1"' } },
      body: { how: 'Came in person.' },
    }),
  );
}
const fulfil = ({ id, version }: Schemas['RightsRequestResponse']) =>
  here.owner.POST('/v1/rights-requests/{rightsRequestId}/fulfilment', {
    params: { path: { rightsRequestId: id }, header: { 'If-Match': `"${version}"` } },
    body: {},
  });

/** Who has the name of the marked person, and stands in a list with it. */
async function takeOnNamesake(): Promise<void> {
  const { givenName, familyName } = marked;
  await dataOf(here.desk.POST('/v1/clients', { body: { givenName, familyName, email: namesake } }));
  await dataOf(
    here.desk.POST('/v1/client-imports', {
      body: `First name,Last name,Mail\n${givenName},${familyName},${namesake}\n`,
      bodySerializer: (list: string) => list,
      headers: { 'content-type': 'text/csv' },
    }),
  );
}
const namesake = 'namesake@riders.example';

describe('a copy', () => {
  let person: TestClient;
  let request: Schemas['RightsRequestResponse'];
  let copy: Schemas['PersonExportResponse'];
  let archive: Record<string, Uint8Array>;
  const textOf = (name: string): string => Buffer.from(archive[name] ?? []).toString();

  beforeAll(async () => {
    person = await takeOnMarkedPerson(api, here);
    await takeOnNamesake();
    await eventually('the fit sheet', 20, async () =>
      (await storedFiles(api.storageFolder)).some((file) => file.endsWith('sheet.pdf')) ? true : undefined,
    );
    request = await known(person.clientId, 'access');
    const of = { params: { path: { rightsRequestId: request.id } } };
    expect((await fulfil(request)).error).toMatchObject({ status: 409, code: 'rights.copy-missing' });
    await dataOf(here.owner.POST('/v1/rights-requests/{rightsRequestId}/exports', of));
    copy = await eventually('the copy', 30, async () => {
      const [made] = await dataOf(here.owner.GET('/v1/rights-requests/{rightsRequestId}/exports', of));
      return made?.state === 'ready' ? made : undefined;
    });
    const response = await fetch(String(copy.url));
    expect(response.headers.get('content-type')).toBe('application/zip');
    archive = unzipSync(new Uint8Array(await response.arrayBuffer()));
  });

  it('is JSON after the published schema, and holds every text that is kept of the person', async () => {
    const data = JSON.parse(textOf('data.json')) as {
      records: Record<string, Record<string, unknown>[]>;
      files: { path: string }[];
    };
    const schema = JSON.parse(
      readFileSync(new URL('../../docs/person-export.schema.json', import.meta.url), 'utf8'),
    ) as object;
    const ajv = new Ajv2020({ allErrors: true, strictTypes: false });
    formats.default(ajv);
    const validate = ajv.compile(schema);
    validate(data);
    expect(validate.errors ?? []).toEqual([]);
    expect(ajv.validate(schema, { ...data, format: 'another' })).toBe(false);

    expect(data.records['clients']).toHaveLength(2);
    expect(data.records['clients']?.[0]).toMatchObject({
      ...{ givenName: marked.givenName, bornOn: marked.bornOn, email: marked.email },
    });
    // Every table in which a word about the person stands, but for second copies of the same.
    const inNames = (table: string): string =>
      table.replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
    const tables = [
      ...new Set((await columnsWith(api.database, marked.word)).map((column) => column.split('.')[0] ?? '')),
    ];
    const second = ['record_signatures', 'session_operations', 'idempotency_keys', 'client_merges'];
    for (const table of tables.filter((one) => !second.includes(one)))
      expect([table, JSON.stringify(data.records[inNames(table)])]).toEqual([
        table,
        expect.stringContaining(marked.word),
      ]);
    // Nobody else, no secret, nothing of the staff.
    for (const word of [namesake, 'linkHash', 'unsubscribeHash', here.owner.signedIn.id, 'Kim'])
      expect([word, textOf('data.json').includes(word)]).toEqual([word, false]);
    expect(data.files.map(({ path }) => path).sort()).toEqual(
      Object.keys(archive)
        .filter((name) => name.includes('/'))
        .sort(),
    );
  });

  it('has every file as it is kept, under names that lead nowhere', () => {
    const names = Object.keys(archive).sort();
    expect(names).toEqual([
      'data.json',
      expect.stringMatching(/^files\/[0-9a-f-]{36}\.png$/),
      expect.stringMatching(/^fit-sheets\/[0-9a-f-]{36}\.pdf$/),
      'index.html',
    ]);
    expect(Buffer.from(archive[names[1] ?? ''] ?? []).subarray(0, 8)).toEqual(onePixel.subarray(0, 8));
    expect(textOf(names[2] ?? '').slice(0, 5)).toBe('%PDF-');
  });

  it('has a page to read, in which what was typed stays text', () => {
    const page = textOf('index.html');
    expect(page).toContain('<h2>Visits</h2>');
    expect(page).toContain(`${marked.word}: an old injury`);
    expect(page).toContain('2090-03-02 09:00 UTC to 2090-03-02 10:00 UTC');
    expect(page).not.toContain('<script');
  });

  it('is mailed as a link that works once', async () => {
    await here.owner.POST('/v1/person-exports/{personExportId}/mail', {
      params: { path: { personExportId: copy.id } },
    });
    const mail = await eventually('the mail', 20, async () =>
      (await mailsTo(marked.email)).find(({ subject }) => subject === 'What you asked us for is ready'),
    );
    const link = /http\S+\/exports\/\S+/.exec(mail.text)?.[0] ?? '';
    // Programs that look into mail take nothing away.
    for (let looked = 0; looked < 2; looked += 1) {
      const page = await fetch(link);
      expect(page.status).toBe(200);
      expect(page.headers.get('referrer-policy')).toBe('no-referrer');
      expect(await page.text()).toContain('Download it now');
    }
    const taken = await fetch(`${link}/file`, { method: 'POST' });
    expect(Object.keys(unzipSync(new Uint8Array(await taken.arrayBuffer())))).toContain('data.json');
    expect((await fetch(`${link}/file`, { method: 'POST' })).status).toBe(404);
    expect((await fetch(link)).status).toBe(404);
    expect(await dataOf(fulfil(request))).toMatchObject({ state: 'done', allowed: [] });
  });

  it('is removed after seven days', async () => {
    await here.owner.POST('/v1/test-clock/advance', { body: { seconds: 8 * 86_400 } });
    const of = { params: { path: { rightsRequestId: request.id } } };
    const [made] = await dataOf(here.owner.GET('/v1/rights-requests/{rightsRequestId}/exports', of));
    expect(made?.url).toBeNull();
    const mailed = await here.owner.POST('/v1/person-exports/{personExportId}/mail', {
      params: { path: { personExportId: copy.id } },
    });
    expect(mailed.error).toMatchObject({ status: 409, code: 'rights.copy-not-there' });
    await eventually('the archive is gone', 30, async () =>
      (await storedFiles(api.storageFolder)).some((file) => file.endsWith('.zip')) ? undefined : true,
    );
  });
});

describe('a restricted record', () => {
  it('is corrected, and nothing is shown of health, sent, booked or screened, until that ends', async () => {
    const { clientId } = await takeOnClient(here.owner, 'restricted@riders.example');
    const { serviceId, roomId, owner, desk } = here;
    const of = { params: { path: { clientId } } };
    const visit = {
      clientId,
      serviceId,
      roomId,
      fitterId: owner.signedIn.id,
      startsAt: '2091-03-05T09:00:00Z',
    };
    await dataOf(desk.POST('/v1/appointments', { body: visit }));
    expect(await dataOf(fulfil(await known(clientId, 'restriction')))).toMatchObject({ state: 'done' });

    const read = await owner.GET('/v1/clients/{clientId}/paired-positions', of);
    expect(read.error).toMatchObject({ status: 403, code: 'access.record-restricted' });

    const queued = async () => {
      const query = { clientId, state: 'queued' as const };
      return (await dataOf(desk.GET('/v1/messages', { params: { query } }))).items.length;
    };
    expect(await queued()).toBe(0);
    const refused = { status: 409, code: 'clients.restricted' };
    const later = { ...visit, startsAt: '2091-03-06T09:00:00Z' };
    expect((await desk.POST('/v1/appointments', { body: later })).error).toMatchObject(refused);
    const note = { ...of, body: { text: 'rang' } };
    expect((await desk.POST('/v1/clients/{clientId}/notes', note)).error).toMatchObject(refused);
    const intake = { ...of, body: { delivery: 'hand_over' as const } };
    expect((await desk.POST('/v1/clients/{clientId}/intake-links', intake)).error).toMatchObject(refused);
    const { version } = await dataOf(desk.GET('/v1/clients/{clientId}', of));
    await dataOf(
      desk.PATCH('/v1/clients/{clientId}', {
        params: { path: { clientId }, header: { 'If-Match': `"${version}"` } },
        body: { familyName: 'Corrected' },
      }),
    );

    await dataOf(owner.POST('/v1/clients/{clientId}/restriction-end', of));
    await dataOf(desk.POST('/v1/appointments', { body: later }));
    const again = await owner.POST('/v1/clients/{clientId}/restriction-end', of);
    expect(again.error).toMatchObject({ status: 409, code: 'rights.not-restricted' });
  });
});

describe('consent that is taken back', () => {
  it('stops what is queued at once', async () => {
    const { clientId } = await takeOnClient(here.owner, 'withdrawn@riders.example');
    const { serviceId, roomId, owner, desk } = here;
    const visit = {
      clientId,
      serviceId,
      roomId,
      fitterId: owner.signedIn.id,
      startsAt: '2092-03-05T09:00:00Z',
    };
    await dataOf(desk.POST('/v1/appointments', { body: visit }));
    const states = async () => {
      const { items } = await dataOf(desk.GET('/v1/messages', { params: { query: { clientId } } }));
      return items.filter(({ template }) => template.startsWith('reminder')).map(({ state }) => state);
    };
    expect(await states()).toEqual(['queued', 'queued']);
    await dataOf(
      desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', {
        params: { path: { clientId, kind: 'contact' } },
      }),
    );
    expect(await states()).toEqual(['cancelled', 'cancelled']);
  });
});

describe('a request', () => {
  it('is due in a month, tells the owner a week before, is extended once and refused with a reason', async () => {
    const { clientId } = await takeOnClient(here.owner, 'due@riders.example');
    const { id, dueOn, receivedOn } = await known(clientId, 'correction');
    expect(Date.parse(dueOn) - Date.parse(receivedOn)).toBeGreaterThanOrEqual(28 * 86_400_000);
    const query = { kind: 'rights_request' as const, limit: 200 };
    const task = async () =>
      (await dataOf(here.owner.GET('/v1/tasks', { params: { query } }))).items.find(
        ({ subjectId, state }) => subjectId === id && state !== 'done',
      );
    const told = Date.parse(dueOn) - Date.parse((await task())?.dueAt ?? '');
    expect(Math.round(told / 86_400_000)).toBe(6);
    const ofVersion = (version: number) => ({
      params: { path: { rightsRequestId: id }, header: { 'If-Match': `"${version}"` } },
    });
    const extend = (version: number) =>
      here.owner.POST('/v1/rights-requests/{rightsRequestId}/extension', {
        ...ofVersion(version),
        body: { because: 'Many visits.' },
      });
    expect((await dataOf(extend(2))).dueOn > dueOn).toBe(true);
    expect((await extend(3)).error).toMatchObject({ status: 409, code: 'rights.extended-already' });
    const refuse = (version: number) =>
      here.owner.POST('/v1/rights-requests/{rightsRequestId}/refusal', {
        ...ofVersion(version),
        body: { reason: 'It was right already.' },
      });
    expect((await refuse(1)).response.status).toBe(412);
    const { answer } = await dataOf(refuse(3));
    expect(answer.join(' ')).toMatch(/It was right already\..*complain/);
    expect(await task()).toBeUndefined();
    expect((await refuse(4)).error).toMatchObject({ status: 409, state: 'refused', allowed: [] });
  });

  it('is for the owner to decide, and the record of processing for the owner to show', async () => {
    expect((await here.desk.GET('/v1/rights-requests')).response.status).toBe(403);
    const record = await dataOf(here.owner.GET('/v1/processing-record'));
    expect(record.controller).toBe(here.studio.name);
    expect(record.contacts).toEqual([`Owner: Owner, ${here.studio.owner.email}`]);
    const page = readFileSync(new URL('../../docs/processing-record.md', import.meta.url), 'utf8');
    for (const { name, legalBasis } of record.activities) {
      expect(page).toContain(`## ${name}`);
      expect(page).toContain(legalBasis);
    }
  });
});
