import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import ICAL from 'ical.js';
import type { ChildProcess } from 'node:child_process';
import pg from 'pg';
import { eventually, mailsTo, type CaughtMail } from '../helpers/mail.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

const reportSecret = 'a-secret-of-the-mail-server-for-tests';

let api: TestApi;
let studio: TestStudio;
let worker: ChildProcess;
let database: pg.Client;
let hour = 0;
let riders = 0;

beforeAll(async () => {
  api = await startTestApi({ MAIL_REPORT_SECRET: reportSecret });
  studio = await openTestStudio(api);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
  worker = startWorker(api, 'messages');
});
afterAll(async () => {
  await stop(worker);
  await database.end();
  await api.close();
});

type Message = components['schemas']['MessageResponse'];

/** By the clock of Copenhagen, in summer. */
const freeHour = (): string =>
  new Date(Date.UTC(2089, 6, 1 + Math.floor(hour / 4), 8 + 2 * (hour++ % 4))).toISOString();
const newRider = async (): Promise<{ clientId: string; email: string }> => {
  const email = `rider-${++riders}-${studio.studio.handle}@riders.example`;
  return { email, clientId: (await takeOnClient(studio.owner, email)).clientId };
};
const book = (clientId: string, more: { startsAt?: string; tellClient?: boolean } = {}) =>
  dataOf(
    studio.desk.POST('/v1/appointments', {
      body: {
        ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId },
        ...{ fitterId: studio.owner.signedIn.id, startsAt: freeHour(), ...more },
      },
    }),
  );
const of = ({ id, version }: { id: string; version: number }) => ({
  params: { path: { appointmentId: id }, header: { 'If-Match': `"${version}"` } },
});
const messagesOf = async (clientId: string): Promise<Message[]> =>
  (await dataOf(studio.desk.GET('/v1/messages', { params: { query: { clientId } } }))).items;
const settled = (id: string): Promise<Message> =>
  eventually(`message ${id} settled`, 20, async () => {
    const message = await dataOf(
      studio.desk.GET('/v1/messages/{messageId}', { params: { path: { messageId: id } } }),
    );
    return ['queued', 'sending'].includes(message.state) ? undefined : message;
  });
const mail = (email: string, subject: RegExp): Promise<CaughtMail> =>
  eventually(`mail ${String(subject)}`, 20, async () =>
    (await mailsTo(email)).find((one) => subject.test(one.subject)),
  );
const settings = async () => {
  const { version } = await dataOf(studio.owner.GET('/v1/message-settings'));
  return { params: { header: { 'If-Match': `"${version}"` } } };
};

function invitation({ calendar }: CaughtMail) {
  const parsed = new ICAL.Component(ICAL.parse(calendar ?? '') as unknown[]);
  const event = parsed.getFirstSubcomponent('vevent');
  if (!event) throw new Error('there is no event');
  return {
    method: parsed.getFirstPropertyValue('method'),
    uid: event.getFirstPropertyValue('uid'),
    sequence: event.getFirstPropertyValue('sequence'),
    status: event.getFirstPropertyValue('status'),
    start: new ICAL.Event(event).startDate.toJSDate().toISOString(),
    attendee: event.getFirstPropertyValue('attendee'),
  };
}

describe('a visit', () => {
  it('is confirmed, moved and cancelled by mails that a calendar program takes up', async () => {
    const { clientId, email } = await newRider();
    const visit = await book(clientId);
    const confirmation = await mail(email, /^Your appointment on /);
    expect(confirmation.text).toContain('First fit');
    expect(confirmation.html).toContain('<html lang="en">');
    expect(confirmation.headers).toMatchObject({ 'auto-submitted': 'auto-generated' });
    expect(confirmation.headers['list-unsubscribe']).toBeUndefined();
    expect(invitation(confirmation)).toEqual({
      ...{ method: 'REQUEST', uid: visit.id, sequence: 0, status: 'CONFIRMED' },
      ...{ start: visit.startsAt, attendee: `mailto:${email}` },
    });

    const startsAt = freeHour();
    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', { ...of(visit), body: { startsAt } }),
    );
    const news = await mail(email, /is now on/);
    expect(invitation(news)).toMatchObject({
      method: 'REQUEST',
      uid: visit.id,
      sequence: 1,
      start: startsAt,
    });

    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...of(moved),
        body: { reason: 'The knee hurts.' },
      }),
    );
    const end = await mail(email, /is cancelled/);
    expect(invitation(end)).toMatchObject({
      method: 'CANCEL',
      uid: visit.id,
      sequence: 2,
      status: 'CANCELLED',
    });
    expect(`${end.text}${end.calendar ?? ''}`).not.toContain('knee');
  });

  it('promises its reminders, promises them anew when it is moved, and takes them back when it is cancelled', async () => {
    const { clientId } = await newRider();
    const visit = await book(clientId, { startsAt: '2089-03-28T09:00:00Z', tellClient: false });
    const promised = async () =>
      (await messagesOf(clientId)).map(({ template, state, notBefore }) => [template, state, notBefore]);
    // The clocks go forward in between: by the clock it is the same time, and an hour less.
    expect(await promised()).toEqual([
      ['reminder_two_days', 'queued', '2089-03-26T10:00:00.000Z'],
      ['reminder_two_hours', 'queued', '2089-03-28T07:00:00.000Z'],
    ]);
    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        ...of(visit),
        body: { startsAt: '2089-04-04T08:00:00Z', tellClient: false },
      }),
    );
    const states = await promised();
    expect(states.map(([template, state]) => `${template ?? ''} ${state ?? ''}`)).toEqual([
      'reminder_two_days cancelled',
      'reminder_two_hours cancelled',
      'reminder_two_days queued',
      'reminder_two_hours queued',
    ]);
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...of(moved),
        body: { reason: 'Ill.', tellClient: false },
      }),
    );
    expect((await promised()).map(([, state]) => state)).toEqual(Array(4).fill('cancelled'));
  });

  it('is announced or reminded of only as the studio has it', async () => {
    await dataOf(
      studio.owner.PATCH('/v1/message-settings', {
        ...(await settings()),
        body: { announceAppointments: false, remindTwoHours: false },
      }),
    );
    const { clientId } = await newRider();
    await book(clientId);
    expect((await messagesOf(clientId)).map(({ template }) => template)).toEqual(['reminder_two_days']);
    await dataOf(
      studio.owner.PATCH('/v1/message-settings', {
        ...(await settings()),
        body: { announceAppointments: true, remindTwoHours: true },
      }),
    );
  });

  it('tells nobody of a hold, nor of its end', async () => {
    const { clientId } = await newRider();
    const held = await dataOf(
      studio.desk.POST('/v1/appointments', {
        body: {
          ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId, holdMinutes: 10 },
          ...{ fitterId: studio.owner.signedIn.id, startsAt: freeHour() },
        },
      }),
    );
    expect(await messagesOf(clientId)).toEqual([]);
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        ...of(held),
        body: { reason: 'No.' },
      }),
    );
    expect(await messagesOf(clientId)).toEqual([]);
  });
});

describe('a client', () => {
  it('is written to in the own language, in the words of the studio', async () => {
    const { clientId, email } = await newRider();
    await dataOf(
      studio.desk.PATCH('/v1/clients/{clientId}', {
        params: { path: { clientId }, header: { 'If-Match': '"1"' } },
        body: { language: 'de-AT' },
      }),
    );
    const template = { params: { path: { template: 'appointment_confirmed' as const } } };
    const own = {
      language: 'de' as const,
      subject: 'Bis {{startsAt}}',
      body: 'Servus {{givenName}}, {{startsAt}}',
    };
    await dataOf(studio.owner.POST('/v1/message-templates/{template}/texts', { ...template, body: own }));
    await book(clientId, { startsAt: '2089-05-02T08:00:00Z' });
    const sent = await mail(email, /^Bis /);
    expect(sent.subject).toBe('Bis Montag, 2. Mai 2089, 10:00 Uhr');
    expect(sent.html).toContain('lang="de"');
    expect((await messagesOf(clientId))[0]).toMatchObject({ language: 'de', textVersion: 'studio-1' });

    await dataOf(
      studio.owner.POST('/v1/message-templates/{template}/restoration', {
        ...template,
        body: { language: 'de' },
      }),
    );
    const { texts } = await dataOf(studio.desk.GET('/v1/message-templates/{template}', template));
    expect(texts.map(({ textVersion }) => textVersion)).toEqual(['standard-1', 'standard-1']);
  });

  it('without a mail address becomes a task to read the message out', async () => {
    const { id: clientId } = await dataOf(
      studio.desk.POST('/v1/clients', {
        body: { givenName: 'No', familyName: 'Mail', phone: '+45 20 12 34 56' },
      }),
    );
    const consent = { kind: 'contact' as const, textVersion: '1' };
    await dataOf(
      studio.desk.POST('/v1/clients/{clientId}/consents', { params: { path: { clientId } }, body: consent }),
    );
    const visit = await book(clientId);
    await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', { ...of(visit), body: { startsAt: freeHour() } }),
    );
    const [confirmed, , , moved] = await messagesOf(clientId);
    expect(await settled(confirmed?.id ?? '')).toMatchObject({
      state: 'cancelled',
      lastError: 'no mail address that works',
    });
    expect(await settled(moved?.id ?? '')).toMatchObject({
      ...{
        state: 'sent',
        channel: 'phone',
        template: 'appointment_moved',
        text: expect.stringContaining('Hello No,'),
      },
    });
    const { items } = await dataOf(studio.desk.GET('/v1/tasks', { params: { query: { clientId } } }));
    expect(items).toMatchObject([{ kind: 'message_to_read_out', subjectId: moved?.id, role: 'front_desk' }]);
  });

  it('who withdraws consent is written to no more, and what was queued is cancelled at once', async () => {
    const { clientId } = await newRider();
    await book(clientId);
    await settled((await messagesOf(clientId))[0]?.id ?? '');
    const { response } = await studio.desk.POST('/v1/clients/{clientId}/consents/{kind}/withdrawal', {
      params: { path: { clientId, kind: 'contact' } },
    });
    expect(response.status).toBe(204);
    const messages = await messagesOf(clientId);
    expect(messages.map(({ state }) => state)).toEqual(['sent', 'cancelled', 'cancelled']);
    const again = await book(clientId);
    const later = (await messagesOf(clientId)).find(({ subjectId }) => subjectId === again.id);
    expect(await settled(later?.id ?? '')).toMatchObject({
      state: 'cancelled',
      lastError: 'may not be contacted',
      subject: null,
    });
  });
});

describe('a reminder', () => {
  it('goes out when its time has come, once, and can be unsubscribed from with one click', async () => {
    const { clientId, email } = await newRider();
    const now = Date.parse(
      (await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }))).now,
    );
    const startsAt = new Date(now + 50 * 3_600_000).toISOString();
    await book(clientId, { startsAt, tellClient: false });
    await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 3 * 3600 } }));
    const sent = await mail(email, /^In two days: First fit/);
    expect(sent.headers['list-unsubscribe-post']).toBe('List-Unsubscribe=One-Click');
    const address =
      /^<(?<url>http\S+)>$/.exec(String(sent.headers['list-unsubscribe']))?.groups?.['url'] ?? '';
    expect(sent.text).toContain(address);

    const page = await fetch(address);
    expect(page.status).toBe(200);
    expect(await page.text()).toContain('Send me no more mails');
    const consents = async () =>
      (
        await dataOf(studio.desk.GET('/v1/clients/{clientId}/consents', { params: { path: { clientId } } }))
      ).find(({ kind }) => kind === 'contact')?.withdrawnAt ?? null;
    expect(await consents()).toBeNull();

    // As RFC 8058, 3.2 has a mail program send it: a form, no cookie, no redirect.
    const form = new FormData();
    form.set('List-Unsubscribe', 'One-Click');
    const click = await fetch(address, { method: 'POST', body: form, redirect: 'error' });
    expect(click.status).toBe(200);
    expect(await consents()).not.toBeNull();
    const again = await fetch(address, {
      method: 'POST',
      body: new URLSearchParams({ 'List-Unsubscribe': 'One-Click' }),
      redirect: 'error',
    });
    expect(again.status).toBe(200);
    expect((await fetch(`${address.slice(0, -3)}AAA`)).status).toBe(404);
    const messages = await messagesOf(clientId);
    expect(messages.map(({ template, state }) => `${template} ${state}`)).toEqual([
      'reminder_two_days sent',
      'reminder_two_hours cancelled',
    ]);
    expect((await mailsTo(email)).length).toBe(1);
  });
});

describe('a report that a mail came back', () => {
  const report = (messageId: string, status: string, action = 'failed') => `From: MAILER-DAEMON@mail.example
To: studio@fitting.example
Subject: Undelivered Mail Returned to Sender
MIME-Version: 1.0
Content-Type: multipart/report; report-type=delivery-status; boundary="b"

--b
Content-Type: text/plain

It could not be delivered.

--b
Content-Type: message/delivery-status

Reporting-MTA: dns; mail.example

Final-Recipient: rfc822; somebody@riders.example
Action: ${action}
Status: ${status}

--b
Content-Type: text/rfc822-headers

Message-ID: ${messageId}
Subject: something

--b--
`;
  const take = (body: string, secret = reportSecret) =>
    fetch(`${api.url}/v1/mail-reports`, {
      method: 'POST',
      headers: { 'content-type': 'message/rfc822', authorization: `Bearer ${secret}` },
      body,
    });

  it('fails the message, flags the address and opens a task; later messages are read out', async () => {
    const { clientId, email } = await newRider();
    const visit = await book(clientId);
    const confirmation = await mail(email, /^Your appointment on /);
    const messageId = String(confirmation.headers['message-id']);
    const [first] = await messagesOf(clientId);
    await settled(first?.id ?? '');

    expect((await take(report(messageId, '5.1.1'), 'another secret')).status).toBe(401);
    expect(await (await take('From: a@b.example\n\nHello')).json()).toEqual({ outcome: 'not_ours' });
    expect(await (await take(report(messageId, '4.4.1', 'delayed'))).json()).toEqual({ outcome: 'delayed' });
    for (let twice = 0; twice < 2; twice += 1) {
      expect(await (await take(report(messageId, '5.1.1'))).json()).toEqual({ outcome: 'failed' });
    }
    expect(await settled(first?.id ?? '')).toMatchObject({ state: 'failed', lastError: 'came back: 5.1.1' });
    const clientOf = { params: { path: { clientId } } };
    expect(await dataOf(studio.desk.GET('/v1/clients/{clientId}', clientOf))).toMatchObject({
      emailUndeliverable: true,
    });
    const tasks = async () =>
      (await dataOf(studio.desk.GET('/v1/tasks', { params: { query: { clientId } } }))).items.map(
        ({ kind }) => kind,
      );
    expect(await tasks()).toEqual(['mail_bounced']);

    await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', { ...of(visit), body: { startsAt: freeHour() } }),
    );
    const moved = (await messagesOf(clientId)).find(({ template }) => template === 'appointment_moved');
    expect(await settled(moved?.id ?? '')).toMatchObject({ channel: 'phone' });

    // The desk has asked: the address is right after all.
    await studio.desk.DELETE('/v1/clients/{clientId}/undeliverable-address', clientOf);
    const repeated = await dataOf(
      studio.desk.POST('/v1/messages/{messageId}/repetition', {
        params: { path: { messageId: first?.id ?? '' } },
      }),
    );
    expect(await settled(repeated.id)).toMatchObject({
      state: 'sent',
      channel: 'mail',
      repeatsId: first?.id,
    });
  });

  it('of a full mailbox does not blame the address', async () => {
    const { clientId, email } = await newRider();
    await book(clientId);
    const { headers } = await mail(email, /^Your appointment on /);
    await settled((await messagesOf(clientId))[0]?.id ?? '');
    await take(report(String(headers['message-id']), '5.2.2'));
    const client = await dataOf(
      studio.desk.GET('/v1/clients/{clientId}', { params: { path: { clientId } } }),
    );
    expect(client).toMatchObject({ emailUndeliverable: false });
  });
});

describe('the words of a message', () => {
  const template = { params: { path: { template: 'appointment_confirmed' as const } } };

  it('are refused with every problem named', async () => {
    const body = { language: 'en' as const, subject: 'Hello {{pain}}', body: 'Come.' };
    const { error } = await studio.owner.POST('/v1/message-templates/{template}/texts', {
      ...template,
      body,
    });
    expect(error).toMatchObject({
      status: 400,
      errors: [
        { field: 'subject', message: expect.stringContaining('knows no {{pain}}') },
        { field: 'body', message: 'must hold {{startsAt}}' },
      ],
    });
    expect(
      (await studio.desk.POST('/v1/message-templates/{template}/texts', { ...template, body })).error,
    ).toMatchObject({ status: 403 });
  });

  it('are previewed with sample values', async () => {
    const body = { subject: 'See you on {{startsAt}}' };
    const shown = await dataOf(
      studio.desk.POST('/v1/message-templates/{template}/preview', { ...template, body }),
    );
    expect(shown).toMatchObject({ language: 'en', subject: 'See you on Monday, 2 March 2026 at 10:00' });
    expect(shown.html).toContain('Hello Robin,');
  });

  it('are those of eighteen kinds of message', async () => {
    const templates = await dataOf(studio.desk.GET('/v1/message-templates'));
    expect(templates).toHaveLength(18);
    const unknown = await studio.desk.GET('/v1/message-templates/{template}', {
      params: { path: { template: 'no_such' as never } },
    });
    expect(unknown.error).toMatchObject({ status: 404 });
  });
});

describe('a message that was sent', () => {
  it('keeps no link, cannot be called off, and holds no more secrets', async () => {
    const { clientId, email } = await newRider();
    await dataOf(
      studio.desk.POST('/v1/clients/{clientId}/intake-links', {
        params: { path: { clientId } },
        body: { delivery: 'mail' },
      }),
    );
    const sent = await mail(email, /^Some questions/);
    expect(sent.text).toMatch(/\/intake\/\S+/);
    const [message] = await messagesOf(clientId);
    const kept = await settled(message?.id ?? '');
    expect(kept.text).toContain('[link]');
    expect(kept.text).not.toContain('/intake/');
    const { error } = await studio.desk.POST('/v1/messages/{messageId}/cancellation', {
      params: { path: { messageId: kept.id } },
    });
    expect(error).toMatchObject({ status: 409, state: 'sent', allowed: ['repeat'] });
    const { rows } = await database.query<{ n: number }>(
      `SELECT count(*)::integer AS n FROM outbox WHERE payload::text ~ '@'`,
    );
    expect(rows[0]?.n).toBe(0);
  });
});
