import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { orderMessage, type TenantTransaction, type Message } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import { simpleParser, type ParsedMail } from 'mailparser';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type AddressInfo } from 'node:net';
import { buffer } from 'node:stream/consumers';
import pg from 'pg';
import { SMTPServer } from 'smtp-server';
import { createTestDatabase, type TestDatabase } from '../../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { Mailer } from '../../mailer.js';
import { SendMessageJob } from './send-message.job.js';
import { subjects } from './subjects/index.js';

const studioId = randomUUID();
const options = {
  publicUrl: 'https://fitting.example',
  linkSecret: 'a secret for the links of tests only',
  mailFrom: 'studio@fitting.example',
  mailPerMinute: 0,
};

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;
let transaction: TenantTransaction;
const servers: { close: () => unknown }[] = [];

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await admin.query(
    `INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Harbour, "Fit"', 'Europe/Copenhagen')`,
    [studioId],
  );
  connected = await connect(database.workerUrl, 3);
  ({ transaction } = connected);
});
afterEach(async () => {
  for (const server of servers.splice(0)) await server.close();
  await admin.query('DELETE FROM test_clock');
  await admin.query('DELETE FROM message_settings');
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});

interface Refusal {
  at?: 'RCPT' | 'DATA';
  code: number;
  text: string;
}

/** A mail server that takes everything, or refuses in the same words each time. */
async function smtpServer(refusal?: Refusal): Promise<{ mailer: Mailer; taken: ParsedMail[] }> {
  const taken: ParsedMail[] = [];
  const refuse = (): Error => Object.assign(new Error(refusal?.text), { responseCode: refusal?.code });
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    onRcptTo(_address, _session, done) {
      done(refusal?.at === 'RCPT' ? refuse() : null);
    },
    onData(stream, _session, done) {
      void buffer(stream).then(async (raw) => {
        if (refusal?.at === 'DATA') {
          done(refuse());
          return;
        }
        taken.push(await simpleParser(raw));
        done();
      });
    },
  });
  server.listen(0, '127.0.0.1');
  await once(server.server, 'listening');
  const { port } = server.server.address() as AddressInfo;
  const mailer = new Mailer(`smtp://127.0.0.1:${port}`, options.mailFrom);
  servers.push({
    close: async () => {
      mailer.close();
      await new Promise<void>((resolve) => {
        server.close(resolve);
      });
    },
  });
  return { mailer, taken };
}

async function newClient(
  fields: { email?: string | null; consent?: boolean; givenName?: string; language?: string } = {},
): Promise<string> {
  const {
    email = `${randomUUID()}@riders.example`,
    consent = true,
    givenName = 'Robin',
    language = null,
  } = fields;
  const { rows } = await admin.query<{ id: string }>(
    `INSERT INTO clients (studio_id, given_name, family_name, email, language) VALUES ($1, $2, 'Rider', $3, $4) RETURNING id`,
    [studioId, givenName, email, language],
  );
  const clientId = rows[0]?.id ?? '';
  if (consent) {
    await admin.query(
      `INSERT INTO client_consents (studio_id, client_id, kind, text_version) VALUES ($1, $2, 'contact', '1')`,
      [studioId, clientId],
    );
  }
  return clientId;
}

const order = (
  clientId: string,
  more: { template?: MessageTemplateName; data?: Record<string, string>; expiresAt?: Date } = {},
): Promise<string> =>
  transaction.run({ studioId }, (tx) =>
    orderMessage(tx, {
      ...{ studioId, clientId, template: 'referral_deadline', data: { dueOn: '2026-03-09' } },
      ...more,
    }),
  );

/** The newest undone order of a message. */
async function outboxOf(messageId: string): Promise<{ id: string; available_at: Date } | undefined> {
  const { rows } = await admin.query<{ id: string; available_at: Date }>(
    `SELECT id, available_at FROM outbox WHERE payload->>'messageId' = $1 AND done_at IS NULL ORDER BY id DESC LIMIT 1`,
    [messageId],
  );
  return rows[0];
}
async function send(mailer: Mailer, messageId: string, changed: Partial<typeof options> = {}): Promise<void> {
  const job = new SendMessageJob(transaction, mailer, subjects(options), { ...options, ...changed });
  const outboxId = (await outboxOf(messageId))?.id;
  if (outboxId === undefined) throw new Error('there is no order');
  await job.handle({ studioId, outboxId, payload: { messageId } });
}
async function read(id: string): Promise<Record<keyof Message, unknown> & Record<string, unknown>> {
  const { rows } = await admin.query<Record<string, unknown>>('SELECT * FROM messages WHERE id = $1', [id]);
  return rows[0] as Record<keyof Message, unknown> & Record<string, unknown>;
}
const setClock = (to: string) =>
  admin.query(
    `INSERT INTO test_clock (ahead_by) VALUES ($1::timestamptz - now())
       ON CONFLICT (only_row) DO UPDATE SET ahead_by = excluded.ahead_by`,
    [to],
  );
const tasksOf = async (id: string): Promise<string[]> => {
  const { rows } = await admin.query<{ kind: string }>('SELECT kind FROM tasks WHERE subject_id = $1', [id]);
  return rows.map(({ kind }) => kind);
};

describe('a message', () => {
  it('goes out once, with a safe head, and its order is done', async () => {
    const { mailer, taken } = await smtpServer();
    const id = await order(await newClient({ givenName: 'A\r\nBcc: all@riders.example' }));
    await send(mailer, id);
    expect(await read(id)).toMatchObject({
      state: 'sent',
      attempts: 1,
      text_version: 'standard-1',
      language: 'en',
    });
    expect(await outboxOf(id)).toBeUndefined();
    expect(taken).toHaveLength(1);
    const [mail] = taken;
    expect(mail?.headers.get('auto-submitted')).toBe('auto-generated');
    expect(mail?.headers.has('bcc')).toBe(false);
    expect(mail?.from?.value).toEqual([{ name: 'Harbour, "Fit"', address: 'studio@fitting.example' }]);
    expect(mail?.messageId).toBe((await read(id))['message_id']);
    expect(mail?.messageId).toMatch(/^<[0-9a-f]{32}\.[0-9a-f]{32}@fitting\.example>$/);
    expect(mail?.text).toContain('Hello A Bcc: all@riders.example,');
  });

  it('that two workers are given at once is sent by one of them', async () => {
    const { mailer, taken } = await smtpServer();
    const id = await order(await newClient());
    await Promise.all([send(mailer, id), send(mailer, id), send(mailer, id)]);
    expect(taken).toHaveLength(1);
    // The others come back when the first must have ended, and find that it has.
    while (await outboxOf(id)) await send(mailer, id);
    expect(taken).toHaveLength(1);
    expect(await read(id)).toMatchObject({ state: 'sent', attempts: 1 });
  });

  it('whose worker died after handing it over goes out again with the same Message-ID, a minute later', async () => {
    const { mailer, taken } = await smtpServer();
    const id = await order(await newClient());
    await send(mailer, id);
    const died = (seconds: number) =>
      admin.query(
        `WITH again AS (UPDATE messages SET state = 'sending', sending_since = now() - make_interval(secs => $2)
                         WHERE id = $1 RETURNING studio_id, id)
         INSERT INTO outbox (studio_id, job, payload)
         SELECT studio_id, 'send-message', jsonb_build_object('messageId', id) FROM again`,
        [id, seconds],
      );
    await died(10);
    await send(mailer, id);
    expect(taken).toHaveLength(1);
    await died(61);
    await send(mailer, id);
    expect(taken.map(({ messageId }) => messageId)).toEqual([taken[0]?.messageId, taken[0]?.messageId]);
    expect(await read(id)).toMatchObject({ state: 'sent', attempts: 2 });
  });
});

describe('an invitation', () => {
  it('is a part of the mail that names its method (RFC 6047, 2.4), beside text and HTML', async () => {
    const { mailer, taken } = await smtpServer();
    const content = 'BEGIN:VCALENDAR\r\nMETHOD:CANCEL\r\nEND:VCALENDAR\r\n';
    await mailer.send({
      ...{ messageId: '<a@fitting.example>', to: 'a@riders.example', fromName: 'Studio', subject: 'S' },
      ...{ text: 'T', html: '<p>T</p>', calendar: { method: 'CANCEL', content } },
    });
    const parts = taken[0]?.attachments.filter(({ contentType }) => contentType === 'text/calendar');
    expect(parts?.[0]?.headers.get('content-type')).toMatchObject({
      value: 'text/calendar',
      params: { method: 'CANCEL', charset: 'utf-8' },
    });
    expect(parts?.[0]?.content.toString()).toContain('METHOD:CANCEL');
  });
});

describe('a mail server that says later', () => {
  it.each([
    [{ at: 'RCPT', code: 450, text: '4.2.0 greylisted' }, 'SMTP 450 4.2.0'],
    [{ at: 'DATA', code: 451, text: 'try again' }, 'SMTP 451'],
  ] as const)('%j is asked again after a wait, up to two days', async (refusal, lastError) => {
    const { mailer } = await smtpServer(refusal);
    const id = await order(await newClient());
    await send(mailer, id);
    expect(await read(id)).toMatchObject({ state: 'queued', attempts: 1, last_error: lastError });
    const wait = Number((await outboxOf(id))?.available_at) - Date.now();
    expect(wait).toBeGreaterThan(1_000);
    expect(wait).toBeLessThan(6_100);

    await admin.query('UPDATE messages SET attempts = 9, not_before = now() WHERE id = $1', [id]);
    await send(mailer, id);
    expect(await read(id)).toMatchObject({ state: 'gave_up', attempts: 10 });
    expect(await outboxOf(id)).toBeUndefined();
    expect(await tasksOf(id)).toEqual(['mail_bounced']);
  });

  it('or does not answer at all, is no reason to give up', async () => {
    const closed = createServer().listen(0, '127.0.0.1');
    await once(closed, 'listening');
    const { port } = closed.address() as AddressInfo;
    await new Promise((resolve) => closed.close(resolve));
    const mailer = new Mailer(`smtp://127.0.0.1:${port}`, options.mailFrom);
    const id = await order(await newClient());
    await send(mailer, id);
    mailer.close();
    expect(await read(id)).toMatchObject({ state: 'queued', last_error: expect.stringMatching(/^SMTP E/) });
  });
});

describe('a mail server that says never', () => {
  const dead = async (clientId: string) =>
    (
      await admin.query<{ dead: boolean }>(
        'SELECT undeliverable_email = email AS dead FROM clients WHERE id = $1',
        [clientId],
      )
    ).rows[0]?.dead;

  it('of the address: the message fails, the address is flagged, the desk is told', async () => {
    const { mailer } = await smtpServer({ at: 'RCPT', code: 550, text: '5.1.1 no such user' });
    const clientId = await newClient();
    const id = await order(clientId);
    await send(mailer, id);
    expect(await read(id)).toMatchObject({ state: 'failed', last_error: 'SMTP 550 5.1.1', attempts: 1 });
    expect(await dead(clientId)).toBe(true);
    expect(await tasksOf(id)).toEqual(['mail_bounced']);
    const next = await order(clientId);
    await send(mailer, next);
    expect(await read(next)).toMatchObject({ state: 'sent', channel: 'phone', attempts: 0 });
    expect(await tasksOf(next)).toEqual(['message_to_read_out']);
  });

  it('of the mail: the message fails and the address stays', async () => {
    const { mailer } = await smtpServer({ at: 'DATA', code: 554, text: '5.6.0 not like this' });
    const clientId = await newClient();
    const id = await order(clientId);
    await send(mailer, id);
    expect(await read(id)).toMatchObject({ state: 'failed', last_error: 'SMTP 554 5.6.0' });
    expect(await dead(clientId)).not.toBe(true);
  });
});

describe('when its time comes', () => {
  it.each([
    ['without consent', { consent: false }, {}, 'may not be contacted'],
    ['too late', {}, { expiresAt: new Date(Date.now() - 1000) }, 'too late to be of use'],
    [
      'about a visit there is no more',
      {},
      { template: 'reminder_two_days' as const, subjectId: randomUUID() },
      'not wanted any more',
    ],
  ])('%s it is cancelled and nothing is sent', async (_, client, more, lastError) => {
    const { mailer, taken } = await smtpServer();
    const id = await order(await newClient(client), more);
    await send(mailer, id);
    expect(await read(id)).toMatchObject({ state: 'cancelled', last_error: lastError, attempts: 0 });
    expect(taken).toEqual([]);
  });

  it.each([
    ['2026-03-28T22:00:00Z', '2026-03-29T06:00:00.000Z'],
    ['2026-10-24T22:00:00Z', '2026-10-25T07:00:00.000Z'],
  ])('in quiet hours at %s it waits until %s, however often it is looked at', async (now, until) => {
    const { mailer, taken } = await smtpServer();
    await admin.query(
      `INSERT INTO message_settings (studio_id, quiet_from, quiet_until) VALUES ($1, '21:00', '08:00')`,
      [studioId],
    );
    await setClock(now);
    const id = await order(await newClient());
    await send(mailer, id);
    expect((await outboxOf(id))?.available_at.toISOString()).toBe(until);
    expect(await read(id)).toMatchObject({ state: 'queued', attempts: 0, not_before: new Date(until) });
    await send(mailer, id);
    expect(taken).toEqual([]);
    await setClock(until);
    await send(mailer, id);
    expect(taken).toHaveLength(1);
  });

  it('it waits for its turn at its mail domain, and its turn is not taken from it', async () => {
    const { mailer, taken } = await smtpServer();
    const pace = { mailPerMinute: 60 };
    const domain = `${randomUUID()}.example`;
    const ids: string[] = [];
    for (let count = 0; count < 10; count += 1) {
      const id = await order(await newClient({ email: `rider-${count}@${domain}` }));
      await send(mailer, id, pace);
      ids.push(id);
    }
    // A burst of a tenth of a minute, then one a second.
    expect(taken.length).toBeGreaterThanOrEqual(6);
    expect(taken.length).toBeLessThan(10);
    const waiting = (await Promise.all(ids.map(read))).filter(({ state }) => state === 'queued');
    expect(waiting).toHaveLength(10 - taken.length);
    const turns = waiting.map(({ turn_at: turn }) => Number(turn));
    expect(new Set(turns).size).toBe(turns.length);
    const last = waiting.at(-1);
    await admin.query(`UPDATE messages SET turn_at = now(), not_before = app_now() WHERE id = $1`, [
      last?.id,
    ]);
    await send(mailer, String(last?.id), pace);
    expect(await read(String(last?.id))).toMatchObject({ state: 'sent' });
  });
});

describe('an unasked message', () => {
  it('says how to stop it, and forgets the link its order held', async () => {
    const { mailer, taken } = await smtpServer();
    const data = { dueOn: '2026-03-09', link: 'https://fitting.example/secret' };
    const id = await order(await newClient({ language: 'de' }), { data });
    await send(mailer, id);
    const list = taken[0]?.headers.get('list') as { unsubscribe?: { url?: string } } | undefined;
    expect(list?.unsubscribe?.url).toMatch(/^https:\/\/fitting\.example\/unsubscribe\//);
    expect(taken[0]?.text).toContain(list?.unsubscribe?.url ?? 'no address');
    expect(taken[0]?.subject).toBe('Bitte melden Sie sich bis Montag, 9. März 2026');
    expect((await read(id)).data).toEqual({ dueOn: '2026-03-09' });
    expect((await read(id)).body).not.toContain('unsubscribe');
  });
});
