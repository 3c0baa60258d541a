import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { IntakeLink } from '@studio/database';
import type { ChildProcess } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import pg from 'pg';
import { askedOn, openIntake, send, visit, type Visited } from '../helpers/intake.js';
import { asStudio } from '../helpers/keys.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { nothingWrong, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
let elsewhere: TestStudio;
let database: pg.Client;

beforeAll(async () => {
  api = await startTestApi();
  [studio, elsewhere] = await Promise.all([openTestStudio(api), openTestStudio(api)]);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
});
afterAll(async () => {
  await database.end();
  await api.close();
});

const at = (path: string): string => `${api.url}${path}`;
const go = (path: string, form?: Parameters<typeof visit>[1]): Promise<Visited> => visit(at(path), form);
const begin = (path: string): Promise<Visited> => go(`${path}/start`, []);
const ofClient = (clientId: string) => ({ params: { path: { clientId } } });

/** From the page on, answers whatever is asked, as far as the review or a page that tells of urgency. */
async function answerAll(page: Visited, answers: Readonly<Record<string, unknown>>): Promise<Visited> {
  let now = page;
  while (askedOn(now).length > 0) {
    now = await send(api.url, now, answers);
    // What the answers given leave open would be asked for ever.
    if (now.status !== 200)
      throw new Error(`${now.path}: ${/<ul>[^]*?<\/ul>/.exec(now.html)?.[0] ?? now.status}`);
  }
  return now;
}

const wellAnswered: Readonly<Record<string, unknown>> = nothingWrong;

describe('an intake by link', () => {
  it('is answered page by page, reviewed, and handed in once', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    const first = await go(path);
    expect(first.status).toBe(200);
    expect(first.html).toContain(studio.studio.name);
    expect(first.html).not.toContain('Your consent');

    const review = await answerAll(await begin(path), wellAnswered);
    expect(review.path).toBe(`${path}/review`);
    const [early] = await dataOf(studio.desk.GET('/v1/clients/{clientId}/intake-links', ofClient(clientId)));
    expect(early).toMatchObject({ state: 'open', handedInAt: null, savedAt: expect.any(String) });

    const both = await Promise.all([go(`${path}/submit`, []), go(`${path}/submit`, [])]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 410]);
    const notice = await dataOf(studio.desk.GET('/v1/clients/{clientId}/desk-notice', ofClient(clientId)));
    expect(notice).toEqual({ notice: 'may_be_booked' });
    const screenings = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(clientId)),
    );
    expect(screenings).toHaveLength(1);

    const replayed = await go(`${path}/submit`, []);
    expect(replayed).toMatchObject({ status: 410 });
    expect(replayed.html).toContain('handed in already');
  });

  it('is not sent to a minor before a guardian has consented at the studio', async () => {
    const names = { givenName: 'Young', familyName: 'Rider' };
    const guardian = await dataOf(studio.owner.POST('/v1/clients', { body: names }));
    const bornOn = `${new Date().getUTCFullYear() - 15}-01-01`;
    const minor = await dataOf(
      studio.owner.POST('/v1/clients', { body: { ...names, bornOn, guardianId: guardian.id } }),
    );
    const ask = () =>
      studio.desk.POST('/v1/clients/{clientId}/intake-links', {
        ...ofClient(minor.id),
        body: { delivery: 'hand_over' },
      });
    expect((await ask()).error).toMatchObject({ status: 409, code: 'clients.guardian-missing' });
    const consent = { kind: 'health_data' as const, textVersion: '2026-01' };
    await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/consents', { ...ofClient(minor.id), body: consent }),
    );
    expect((await ask()).response.status).toBe(201);
  });

  it('saves each page, also beside an answer that is missing, and goes on where it was left', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    const page = await begin(path);
    const [missing = '', ...others] = askedOn(page);
    const { [missing]: _, ...partly } = wellAnswered;
    const refused = await send(api.url, page, partly);
    expect(refused.status).toBe(422);
    expect(refused.html).toContain('There is a problem');
    expect(refused.html).toMatch(new RegExp(`href="#q-${missing.replaceAll('_', '-')}-1"`));
    expect(refused.html).toContain('<title>Error: ');

    const link = await asStudio(api.database, studio.studio.studioId, (tx) =>
      tx.findOneByOrFail(IntakeLink, { clientId }),
    );
    expect(Object.keys(link.answers).sort()).toEqual(others.filter((key) => key in wellAnswered).sort());
    const resumed = await begin(path);
    expect(askedOn(resumed)).toEqual([missing]);
    expect((await answerAll(resumed, wellAnswered)).path).toBe(`${path}/review`);
  });

  it('asks what an answer makes relevant, and hands in nothing an answer made needless', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    const numb = {
      ...wellAnswered,
      saddle_numb: 'yes',
      saddle_numb_new_or_worse: 'no',
      saddle_numb_despite_changes: 'no',
    };
    let page = await begin(path);
    while (!askedOn(page).includes('saddle_numb_day_after')) page = await send(api.url, page, numb);
    const review = await answerAll(page, { ...numb, saddle_numb_day_after: 'no' });
    expect(review.path).toBe(`${path}/review`);

    const changes = [...review.html.matchAll(/href="([^"]+\?change=1)"/g)].map(
      ([, address]) => address ?? '',
    );
    const pages = await Promise.all(changes.map((address) => go(address)));
    const withSaddle = pages.find((shown) => askedOn(shown).includes('saddle_numb'));
    if (!withSaddle) throw new Error('no page asks after the saddle');
    const changed = await send(api.url, withSaddle, wellAnswered);
    expect(changed.path).toBe(`${path}/review`);
    await go(`${path}/submit`, []);
    const [screening] = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/screenings', ofClient(clientId)),
    );
    const { answers } = await dataOf(
      studio.owner.GET('/v1/screenings/{screeningId}', {
        params: { path: { screeningId: screening?.id ?? '' } },
      }),
    );
    expect(answers.map(({ questionId }) => questionId)).not.toContain('saddle_numb_day_after');
  });

  it('asks for the consent when there is none, keeps nothing without it, and keeps it with its wording', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const health = { params: { path: { clientId, kind: 'health_data' as const } } };
    await studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', health);
    const path = await openIntake(studio.desk, clientId);
    expect((await go(path)).html).toContain('Your consent');
    expect(await begin(path)).toMatchObject({ status: 422 });

    const page = await go(`${path}/start`, [['consent', 'yes']]);
    expect(page.status).toBe(200);
    const consents = await dataOf(studio.desk.GET('/v1/clients/{clientId}/consents', ofClient(clientId)));
    expect(consents.at(-1)).toMatchObject({
      kind: 'health_data',
      textVersion: 'intake-page-1',
      takenBy: null,
      withdrawnAt: null,
    });

    await studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', health);
    const refused = await send(api.url, page, wellAnswered);
    expect(refused.status).toBe(409);
    expect(refused.html).toContain('Your consent was taken back');
  });

  it('sends headers that keep script, frames and caches out, and escapes what came from elsewhere', async () => {
    const { id: clientId } = await dataOf(
      studio.owner.POST('/v1/clients', { body: { givenName: '<b>Robin', familyName: 'Rider' } }),
    );
    const path = await openIntake(studio.desk, clientId);
    const { headers, html } = await go(path);
    expect(headers.get('content-security-policy')).toMatch(
      /^default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]+'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'$/,
    );
    const [, style = ''] = /<style>([^]*)<\/style>/.exec(html) ?? [];
    const hash = createHash('sha256').update(style).digest('base64');
    expect(headers.get('content-security-policy')).toContain(`'sha256-${hash}'`);
    expect(headers.get('cache-control')).toBe('no-store');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(html).not.toMatch(/<script|<b>/);
    const unknown = await go(`${path}/pages/%3Cscript%3E`);
    expect(unknown.html).not.toContain('<script>');
  });
});

describe('a link that no longer works', () => {
  it('is told apart: never was, cut off, of another studio, withdrawn, run out', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    expect((await answerAll(await begin(path), wellAnswered)).path).toBe(`${path}/review`);

    expect((await go('/intake/no-link')).status).toBe(404);
    expect((await go(path.slice(0, -1) + (path.endsWith('A') ? 'B' : 'A'))).status).toBe(404);
    const foreign = path.replace(
      /\/intake\/[0-9a-f]{32}/,
      `/intake/${elsewhere.studio.studioId.replaceAll('-', '')}`,
    );
    const unknown = await go(foreign);
    expect(unknown.status).toBe(404);
    expect(unknown.html).toContain('We do not know this link');

    const [link] = await dataOf(studio.desk.GET('/v1/clients/{clientId}/intake-links', ofClient(clientId)));
    const of = { params: { path: { intakeLinkId: link?.id ?? '' } } };
    const revoke = () => studio.desk.POST('/v1/intake-links/{intakeLinkId}/revocation', of);
    expect((await dataOf(revoke())).state).toBe('revoked');
    expect((await revoke()).error).toMatchObject({ status: 409, code: 'intake-links.not-open' });
    const revoked = await go(`${path}/review`);
    expect(revoked.status).toBe(410);
    expect(revoked.html).toContain('withdrawn');

    // What was saved goes over to the next link.
    const next = await openIntake(studio.desk, clientId);
    expect((await begin(next)).path).toBe(`${next}/review`);
    await studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 15 * 86_400 } });
    const late = await go(next);
    expect(late.status).toBe(410);
    expect(late.html).toContain('has run out');
    const again = await openIntake(studio.desk, clientId);
    expect((await begin(again)).path).toBe(`${again}/review`);
    expect((await go(`${again}/submit`, [])).status).toBe(200);
  });

  it('keeps no secret in the database', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    const secret = path.split('.').at(-1) ?? '';
    const { rows } = await database.query<{ row: string }>(
      'SELECT row_to_json(l)::text AS row FROM intake_links l WHERE client_id = $1',
      [clientId],
    );
    expect(rows).toHaveLength(1);
    expect(rows[0]?.row).not.toContain(secret);
    expect(rows[0]?.row).not.toContain(Buffer.from(secret).toString('hex'));
  });
});

describe('with the worker', () => {
  let worker: ChildProcess;
  beforeEach(() => {
    worker = startWorker(api, `t${randomUUID().slice(0, 8)}`);
  });
  afterEach(() => stop(worker));

  it('the link comes by mail, only with the consent to be written to and an address', async () => {
    const email = `${randomUUID().slice(0, 8)}@riders.example`;
    const { clientId } = await takeOnClient(studio.owner, email);
    const body = { delivery: 'mail' as const };
    const create = (id: string) =>
      studio.desk.POST('/v1/clients/{clientId}/intake-links', { ...ofClient(id), body });
    expect((await dataOf(create(clientId))).url).toBeNull();
    const mail = await eventually(`mail to ${email}`, 20, async () => (await mailsTo(email)).at(0));
    const path = new URL(/http\S+\/intake\/\S+/.exec(mail.text)?.[0] ?? '').pathname;
    expect((await go(path)).status).toBe(200);
    await eventually('the record says sent', 5, async () => {
      const [link] = await dataOf(studio.desk.GET('/v1/clients/{clientId}/intake-links', ofClient(clientId)));
      return link?.sentAt ?? undefined;
    });

    const { id: unasked } = await dataOf(
      studio.owner.POST('/v1/clients', { body: { givenName: 'A', familyName: 'B', email } }),
    );
    expect((await create(unasked)).error).toMatchObject({ status: 409, code: 'clients.consent-missing' });
  });

  it('an answer that cannot wait is told to client and studio before anything is handed in', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const path = await openIntake(studio.desk, clientId);
    const chestPain = { ...wellAnswered, chest_pain: 'yes' };
    const alarm = await answerAll(await begin(path), chestPain);
    expect(alarm.path).toMatch(/\/urgent\//);
    expect(alarm.html).toContain('Call your local emergency number now');

    const notice = await dataOf(studio.desk.GET('/v1/clients/{clientId}/desk-notice', ofClient(clientId)));
    expect(notice).toEqual({ notice: 'not_before_clearance' });
    const { items: mine } = await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { clientId } } }));
    expect(mine).toMatchObject([{ kind: 'referral_overdue', overdue: true }]);
    const address = studio.studio.owner.email;
    const alerts = () =>
      mailsTo(address).then((mails) => mails.filter(({ text }) => text.includes(mine[0]?.subjectId ?? '-')));
    const [alert] = await eventually('an alert', 20, async () => {
      const found = await alerts();
      return found.length > 0 ? found : undefined;
    });
    // Mail travels in the open.
    expect(alert?.text).not.toMatch(/chest|Robin|Rider/i);

    await answerAll(await begin(path), { ...chestPain, chest_pain_hours_ago: 1 });
    const done = await go(`${path}/submit`, []);
    expect(done.html).toContain('What you should do');
    expect(done.html).toContain('emergency number');
    // Handed in with the same answers it joins the same case and rings no second bell.
    const referrals = await dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', ofClient(clientId)));
    expect(referrals).toHaveLength(1);
    await new Promise((resolve) => setTimeout(resolve, 2_500));
    expect(await alerts()).toHaveLength(1);
  });
});
