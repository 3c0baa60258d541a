import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { onlyWhenReady } from '../helpers/fit-sheets.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { openMeasuredSession, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

type Order = components['schemas']['OrderFitSheetRequest'];

const email = 'sheet@riders.example';

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;
let fitSessionId: string;
let openSessionId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  const client = await takeOnClient(studio.owner, email);
  await screen(studio.owner, client.clientId);
  ({ fitSessionId } = await signedSession(studio.owner, client));
  openSessionId = await openMeasuredSession(studio.owner, client);
  worker = startWorker(api, 'fit-sheets');
});
afterAll(async () => {
  await stop(worker);
  await api.close();
});

const order = (body: Order, session = fitSessionId, header: Record<string, string> = {}) =>
  studio.owner.POST('/v1/fit-sessions/{fitSessionId}/fit-sheets', {
    params: { path: { fitSessionId: session }, header },
    body,
  });

describe('a fit sheet', () => {
  it('is ordered, made by the worker, and read by addresses that hold a while', async () => {
    const ordered = await dataOf(order({ audience: 'studio', lengths: 'mm_and_inch' }));
    expect(ordered).toMatchObject({
      ...{ fitSessionId, audience: 'studio', paper: 'a4', lengths: 'mm_and_inch' },
      ...{ state: 'ordered', documents: [], finishedAt: null },
    });
    const ready = await onlyWhenReady(studio.owner, ordered.id);
    expect(ready.documents.map(({ name, mediaType }) => [name, mediaType])).toEqual([
      ['sheet.pdf', 'application/pdf'],
      ['page.html', 'text/html'],
      ['side-view.svg', 'image/svg+xml'],
      ['feet.svg', 'image/svg+xml'],
      ['knee.svg', 'image/svg+xml'],
    ]);
    const [pdf, page, ...drawings] = await Promise.all(
      ready.documents.map(async ({ url, mediaType }) => {
        const answer = await fetch(url);
        expect(answer.headers.get('content-type')).toContain(mediaType);
        return answer.text();
      }),
    );
    expect(pdf?.slice(0, 5)).toBe('%PDF-');
    expect(page).toContain('Robin Rider');
    expect(page).toContain('740 mm (29.13 in)');
    expect(page).toMatch(/Signed on \d+ \w+ \d{4}/);
    expect(page).toContain('Most of the effect.');
    for (const drawing of drawings) expect(drawing).toMatch(/^<svg [^>]*role="img"/);

    const { items } = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/fit-sheets', { params: { path: { fitSessionId } } }),
    );
    expect(items.map(({ id, state }) => [id, state])).toEqual([[ordered.id, 'ready']]);
  });

  it('of a session that is not signed says that it is a draft, and draws what there is', async () => {
    const ordered = await dataOf(order({ audience: 'rider', paper: 'letter' }, openSessionId));
    const ready = await onlyWhenReady(studio.owner, ordered.id);
    expect(ready.documents.map(({ name }) => name)).toEqual(['sheet.pdf', 'page.html']);
    const page = await (await fetch(ready.documents[1]?.url ?? '')).text();
    expect(page).toContain('Draft: not signed yet');
    expect(page).toContain('No position has been measured yet.');
  });

  it('is ordered once for one Idempotency-Key, and is no business of the front desk', async () => {
    const header = { 'Idempotency-Key': 'one-sheet' };
    const first = await dataOf(order({ audience: 'rider' }, fitSessionId, header));
    expect((await dataOf(order({ audience: 'rider' }, fitSessionId, header))).id).toBe(first.id);
    expect((await order({ audience: 'studio' }, fitSessionId, header)).error).toMatchObject({
      code: 'idempotency-key.used-for-another',
    });
    const path = { fitSheetId: first.id };
    expect((await studio.desk.GET('/v1/fit-sheets/{fitSheetId}', { params: { path } })).response.status).toBe(
      403,
    );
    expect((await order({ audience: 'rider', paper: 'a5' as 'a4' })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'paper' }],
    });
  });

  it('tells the rider by mail where it is, once it is ready', async () => {
    const refused = await order({ audience: 'studio', tellRider: true });
    expect(refused.error).toMatchObject({ status: 400, errors: [{ field: 'tellRider' }] });
    await dataOf(order({ audience: 'rider', tellRider: true }));
    const mail = await eventually('the mail', 20, async () =>
      (await mailsTo(email)).find(({ subject }) => subject === 'The sheet of your bike fit'),
    );
    const link = /\/fit-sheets\/(\S+)/.exec(mail.text)?.[1] ?? '';
    const opened = await fetch(`${api.url}/fit-sheets/${link}`, { redirect: 'manual' });
    expect([opened.status, opened.headers.get('referrer-policy')]).toEqual([303, 'no-referrer']);
    const page = await fetch(opened.headers.get('location') ?? '');
    expect([page.status, page.headers.get('content-type')]).toEqual([200, 'text/html; charset=utf-8']);
    for (const wrong of ['nothing', `${link.slice(0, -4)}AAAA`]) {
      expect((await fetch(`${api.url}/fit-sheets/${wrong}`)).status).toBe(404);
    }
    await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 31 * 86_400 } }));
    const late = await fetch(`${api.url}/fit-sheets/${link}`);
    expect([late.status, (await late.text()).includes('This link has run out')]).toEqual([410, true]);
  });
});
