import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium } from 'playwright-core';
import { nothingWrong, screen, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const browser = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(existsSync);

let api: TestApi;
let studio: TestStudio;
const clients: Record<string, string> = {};

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  const { owner, desk, serviceId, roomId } = studio;
  const fitterId = owner.signedIn.id;
  await dataOf(owner.POST('/v1/rooms', { body: { name: 'Empty <bay>' } }));
  await dataOf(owner.POST('/v1/benches', { body: { name: 'Bench' } }));
  const curing = await dataOf(
    owner.POST('/v1/services', { body: { name: 'Shoe work', durationMinutes: 30, curingMinutes: 720 } }),
  );
  const add = async (name: string, answers?: Record<string, unknown>) => {
    const client = await takeOnClient(owner, `${name}@riders.example`);
    clients[name] = client.clientId;
    if (answers) await screen(owner, client.clientId, answers);
    return client.clientId;
  };
  const book = async (clientId: string, startsAt: string, service = serviceId) =>
    dataOf(
      desk.POST('/v1/appointments', { body: { clientId, serviceId: service, roomId, fitterId, startsAt } }),
    );
  // By the clock of Copenhagen: the first begins on the day before, the last on the day after.
  await book(await add('before'), '2090-03-25T22:00:00Z');
  await book(await add('well', nothingWrong), '2090-03-26T07:00:00Z');
  const flagged = await add('flagged');
  await book(flagged, '2090-03-26T08:00:00Z');
  await screen(owner, flagged, { ...nothingWrong, chest_pain: 'yes' });
  await book(await add('unasked'), '2090-03-26T10:00:00Z', curing.id);
  const gone = await book(clients['well'] ?? '', '2090-03-26T12:00:00Z');
  await dataOf(
    desk.POST('/v1/appointments/{appointmentId}/cancellation', {
      params: { path: { appointmentId: gone.id }, header: { 'If-Match': '"1"' } },
      body: { reason: 'Ill.' },
    }),
  );
  await book(await add('after'), '2090-03-26T22:00:00Z');
  const { id } = await dataOf(
    owner.POST('/v1/clients', {
      body: { givenName: '<script>alert(1)</script>', familyName: '& "Co"', phone: '+45 20 12 34 56' },
    }),
  );
  await book(id, '2090-03-26T15:00:00Z');
});
afterAll(() => api.close());

const sheet = () => dataOf(studio.desk.GET('/v1/day-sheet', { params: { query: { day: '2090-03-26' } } }));

describe('the day sheet', () => {
  it('has the visits of the day by the clock of the place, with what is in hand and to be done', async () => {
    const { visits, timeZone } = await sheet();
    expect(timeZone).toBe('Europe/Copenhagen');
    expect(
      visits.map(({ localStart, intake, permission, tasks }) => [
        localStart.slice(0, 19),
        intake,
        permission,
        tasks,
      ]),
    ).toEqual([
      ['2090-03-26T09:00:00', 'taken', 'may_be_booked', []],
      ['2090-03-26T10:00:00', 'taken', 'not_before_clearance', ['ask_after_referral', 'await_clearance']],
      ['2090-03-26T12:00:00', 'missing', 'not_screened', ['take_intake']],
      ['2090-03-26T17:00:00', 'missing', 'not_screened', ['take_consent', 'take_intake']],
    ]);
    expect(visits.map(({ client }) => client.id).slice(0, 3)).toEqual([
      clients['well'],
      clients['flagged'],
      clients['unasked'],
    ]);
  });

  it('goes by room and fitter, those without a visit too, and shows what cures', async () => {
    const { visits, rooms, fitters, benches } = await sheet();
    const all = visits.map(({ appointmentId }) => appointmentId);
    expect(rooms.map(({ name, appointmentIds }) => [name, appointmentIds])).toEqual([
      ['Empty <bay>', []],
      ['Fit bay', all],
    ]);
    expect(fitters.map(({ appointmentIds }) => appointmentIds)).toEqual([all]);
    expect(benches).toMatchObject([
      { bench: { name: 'Bench' }, localReady: expect.stringContaining('2090-03-27T00:30:00') },
    ]);
  });

  it('shows what has lain on the bench for two weeks, the longest there is, and then no more', async () => {
    const service = await dataOf(
      studio.owner.POST('/v1/services', {
        body: { name: 'Slow resin', durationMinutes: 30, curingMinutes: 20_160 },
      }),
    );
    const body = { clientId: clients['well'] ?? '', serviceId: service.id, roomId: studio.roomId };
    const times = { fitterId: studio.owner.signedIn.id, startsAt: '2090-06-01T08:00:00Z' };
    await dataOf(studio.desk.POST('/v1/appointments', { body: { ...body, ...times } }));
    const benchesOn = async (day: string) =>
      (await dataOf(studio.desk.GET('/v1/day-sheet', { params: { query: { day } } }))).benches;
    expect(await benchesOn('2090-06-15')).toMatchObject([
      { localReady: expect.stringContaining('2090-06-15T10:30:00') },
    ]);
    expect(await benchesOn('2090-06-16')).toEqual([]);
    const again = { ...times, startsAt: '2090-06-14T08:00:00Z' };
    const { response, error } = await studio.desk.POST('/v1/appointments', { body: { ...body, ...again } });
    expect([response.status, error?.code]).toEqual([409, expect.stringContaining('bench')]);
  });

  it('shows each what is open in their own inbox; the front desk nothing of what was found', async () => {
    const of = (who: TestStudio['desk']) =>
      dataOf(who.GET('/v1/day-sheet', { params: { query: { day: '2090-03-26' } } }));
    const forOwner = (await of(studio.owner)).openTasks;
    expect(forOwner).toMatchObject([
      { kind: 'referral_overdue', client: { id: clients['flagged'] }, overdue: true },
    ]);
    const forDesk = await of(studio.desk);
    expect(forDesk.openTasks).toEqual([]);
    expect(JSON.stringify(forDesk)).not.toMatch(/chest|pain/);
    const { data } = await studio.owner.GET('/v1/day-sheet/page', {
      params: { query: { day: '2090-03-26' } },
      parseAs: 'text',
    });
    expect(data).toContain('referral overdue');
  });

  it('is that of one site, and of none that is another studio’s', async () => {
    const site = await dataOf(
      studio.owner.POST('/v1/sites', { body: { name: 'Quay', timeZone: 'Pacific/Auckland' } }),
    );
    const of = (siteId: string) =>
      studio.desk.GET('/v1/day-sheet', { params: { query: { day: '2090-03-26', siteId } } });
    expect((await of(site.id)).data).toMatchObject({ timeZone: 'Pacific/Auckland', visits: [], rooms: [] });
    const other = await openTestStudio(api);
    const { response } = await other.desk.GET('/v1/day-sheet', {
      params: { query: { day: '2090-03-26', siteId: site.id } },
    });
    expect(response.status).toBe(404);
  });
});

(browser === undefined ? describe.skip : describe)('the page', () => {
  it('prints on two landscape pages at most, runs nothing, and can be read by everybody', async () => {
    const { email, password } = studio.studio.owner;
    const signedIn = (await (
      await fetch(`${api.url}/v1/sign-ins`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ studio: studio.studio.handle, email, password }),
      })
    ).json()) as { accessToken: string };
    const running = await chromium.launch({ executablePath: browser ?? '', args: ['--no-sandbox'] });
    try {
      const page = await running.newPage({
        extraHTTPHeaders: { authorization: `Bearer ${signedIn.accessToken}` },
        viewport: { width: 1122, height: 793 },
      });
      const troubles: string[] = [];
      page.on('dialog', (dialog) => {
        troubles.push(dialog.message());
        void dialog.dismiss();
      });
      page.on('console', (message) => troubles.push(message.text()));
      const answer = await page.goto(`${api.url}/v1/day-sheet/page?day=2090-03-26`);
      expect(answer?.headers()['content-type']).toBe('text/html; charset=utf-8');
      expect(troubles).toEqual([]);
      expect(await page.title()).toContain('2090-03-26');
      const text = await page.innerText('main');
      for (const part of [
        '09:00–10:00',
        'await clearance',
        'take intake',
        '<script>alert(1)</script> & "Co"',
        'Empty <bay>',
        'Bench',
      ])
        expect(text).toContain(part);
      // The style came through the policy.
      expect(
        await page.evaluate<string>(`getComputedStyle(document.querySelector('table')).borderCollapse`),
      ).toBe('collapse');
      await page.emulateMedia({ media: 'print' });
      const overflow = await page.evaluate<number>(
        `document.documentElement.scrollWidth - document.documentElement.clientWidth`,
      );
      expect(overflow).toBe(0);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
      expect(pages.length).toBeGreaterThanOrEqual(1);
      expect(pages.length).toBeLessThanOrEqual(2);

      const inspected = await running.newPage();
      await inspected.setContent(await page.content());
      await inspected.addScriptTag({ path: createRequire(import.meta.url).resolve('axe-core/axe.min.js') });
      const violations = await inspected.evaluate(async () => {
        const { axe } = globalThis as unknown as {
          axe: { run: () => Promise<{ violations: { id: string }[] }> };
        };
        return (await axe.run()).violations.map(({ id }) => id);
      });
      expect(violations).toEqual([]);
    } finally {
      await running.close();
    }
  });
});
