import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import pg from 'pg';
import { ApiProcess } from '../helpers/api-process.js';
import { createTestDatabase, service, type TestDatabase } from '../helpers/database.js';
import { redisKeysWith } from '../helpers/everywhere.js';
import { eventually, mailsTo } from '../helpers/mail.js';
import { takeOnClient } from '../helpers/rider.js';
import { medicalWords, useEverySecret } from '../helpers/secret-story.js';
import { openTestStudio, webhookKey, type TestStudio } from '../helpers/studio.js';
import { startTraceReceiver, type ReceivedSpan, type TraceReceiver } from '../helpers/trace-receiver.js';
import { startWorker, stop } from '../helpers/worker.js';

/** The example of W3C Trace Context, level 1, 3.2.5. */
const ofCaller = { traceId: '4bf92f3577b34da6a3ce929d0e0e4736', spanId: '00f067aa0ba902b7' };
const traceparent = `00-${ofCaller.traceId}-${ofCaller.spanId}-01`;

const email = 'traced@riders.example';

let database: TestDatabase;
let receiver: TraceReceiver;
let api: ApiProcess;
let worker: ChildProcess;
let studio: TestStudio;
const logs = { api: [] as string[], worker: [] as string[] };
const secrets = {
  TOKEN_SECRET: 'a secret for tokens that no log may tell',
  LINK_SECRET: 'a secret for links that no log may tell',
  WEBHOOK_KEY: webhookKey,
  MASTER_KEYS: `test:${'SecretOfTests'.padEnd(43, 'x')}`,
};

beforeAll(async () => {
  database = await createTestDatabase();
  receiver = await startTraceReceiver();
  const tracing = {
    OTEL_EXPORTER_OTLP_TRACES_ENDPOINT: receiver.url,
    // Milliseconds a span waits for others (OpenTelemetry specification, "Batch Span Processor").
    OTEL_BSP_SCHEDULE_DELAY: '100',
    LOG_LEVEL: 'debug',
    LOCAL_WEBHOOKS: '1',
    ...secrets,
  };
  api = await ApiProcess.start(database, { ...tracing, TRUST_TRACEPARENT: '1' }, logs.api);
  worker = startWorker({ url: api.url, database }, 'traces', tracing, logs.worker);
  studio = await openTestStudio({ url: api.url, database });
});
afterAll(async () => {
  await stop(worker);
  await api.stop();
  await receiver.close();
  await database.drop();
});

const book = async (clientId: string, startsAt: string, headers: Record<string, string>) =>
  dataOf(
    studio.desk.POST('/v1/appointments', {
      body: {
        ...{ clientId, serviceId: studio.serviceId, roomId: studio.roomId, startsAt },
        ...{ fitterId: studio.owner.signedIn.id, evenOutsideHours: true },
      },
      headers,
    }),
  );
const linesWith = (log: readonly string[], traceId: string): Record<string, unknown>[] =>
  log
    .join('')
    .split('\n')
    .filter((line) => line.includes(traceId))
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe('a visit that is booked and confirmed by mail', () => {
  let trace: ReceivedSpan[];
  const named = (name: string): ReceivedSpan => {
    const span = trace.find((one) => one.name === name);
    if (!span) throw new Error(`no ${name} among ${trace.map((one) => one.name).join(', ')}`);
    return span;
  };
  const parentOf = ({ parentSpanId }: ReceivedSpan): string | undefined =>
    trace.find(({ spanId }) => spanId === parentSpanId)?.name;

  it('is one trace, from the request of a caller who is trusted to the mail server', async () => {
    const { clientId } = await takeOnClient(studio.owner, email);
    await book(clientId, '2089-07-01T08:00:00Z', { traceparent });
    await eventually('the mail', 40, async () => ((await mailsTo(email)).length > 0 ? true : undefined));
    trace = await eventually('its spans', 40, () => {
      const own = receiver.spans.filter(({ traceId }) => traceId === ofCaller.traceId);
      return Promise.resolve(own.some(({ name }) => name === 'process send-message') ? own : undefined);
    });
    expect(named('POST /v1/appointments')).toMatchObject({
      ...{ service: 'studio-api', parentSpanId: ofCaller.spanId },
      attributes: {
        ...{ 'http.request.method': 'POST', 'http.route': '/v1/appointments' },
        'http.response.status_code': 201,
      },
    });
    expect(named('send mail')).toMatchObject({
      service: 'studio-worker',
      attributes: { 'server.address': '127.0.0.1', 'server.port': expect.any(Number) },
    });
    const way = ['send mail', 'process send-message', 'relay send-message', 'transaction'];
    expect(way.map((name) => parentOf(named(name)))).toEqual([
      ...['process send-message', 'relay send-message', 'transaction', 'POST /v1/appointments'],
    ]);
    expect(named('process send-message')).toMatchObject({
      service: 'studio-worker',
      attributes: {
        ...{ 'messaging.destination.name': 'mail', 'messaging.message.id': expect.any(String) },
        'studio.job.outcome': 'done',
      },
    });
  });

  it('tells its statements, of the API and of the worker, each within its transaction', () => {
    const statements = trace.filter(({ attributes }) => attributes['db.system.name'] === 'postgresql');
    for (const service of ['studio-api', 'studio-worker']) {
      const own = statements.filter((span) => span.service === service && span.name === 'INSERT');
      expect(new Set(own.map(parentOf))).toEqual(new Set(['transaction']));
    }
    const ordering = statements.find(({ attributes }) =>
      /INSERT INTO outbox/.test(String(attributes['db.query.text'])),
    );
    expect(ordering?.service).toBe('studio-api');
  });

  it('and tells of nobody', async () => {
    expect(receiver.spans.length).toBeGreaterThan(50);
    const client = (await dataOf(studio.desk.GET('/v1/clients'))).items.find((one) => one.email === email);
    const personal = [email, client?.familyName, client?.id, studio.studio.name].map(String);
    const told = receiver.spans.filter(({ text }) => personal.some((word) => text.includes(word)));
    expect(told.map(({ name }) => name)).toEqual([]);
  });

  it('can be found from the lines of both logs', () => {
    const answered = linesWith(logs.api, ofCaller.traceId).filter(({ msg }) => msg === 'answered');
    expect(answered).toMatchObject([{ route: '/v1/appointments', status: 201, reqId: expect.any(String) }]);
    expect(named('POST /v1/appointments').attributes['studio.request_id']).toBe(answered[0]?.['reqId']);
    const carriedOut = linesWith(logs.worker, ofCaller.traceId);
    expect(carriedOut).toMatchObject([{ job: 'send-message', outboxId: expect.any(String), msg: 'done' }]);
  });
});

it('what repeats by itself begins no trace but that of its jobs', () => {
  const begin = receiver.spans.filter(({ parentSpanId }) => parentSpanId === '').map(({ name }) => name);
  expect(begin.length).toBeGreaterThan(0);
  for (const name of begin) expect(name).toMatch(/^(GET|POST|PUT|PATCH|DELETE) \/|^process /);
});

it('a traceparent that is none begins a trace anew', async () => {
  const { clientId } = await takeOnClient(studio.owner, 'second@riders.example');
  await book(clientId, '2089-07-01T12:00:00Z', { traceparent: `00-${'0'.repeat(32)}-x-01` });
  const anew = await eventually('the request', 40, () =>
    Promise.resolve(
      receiver.spans.find(
        ({ name, traceId }) => name === 'POST /v1/appointments' && traceId !== ofCaller.traceId,
      ),
    ),
  );
  expect(anew.parentSpanId).toBe('');
});

describe('secrets', () => {
  /** As they came, whoever asked. */
  const problems: string[] = [];
  /** Every command that Redis was sent, with its keys and values, in the pieces they came in. */
  const commands: string[] = [];
  let monitor: Socket;
  const plainFetch = globalThis.fetch;

  beforeAll(async () => {
    // A client library loses its place when commands come before it knows that it listens.
    const { hostname, port } = new URL(service('TEST_REDIS_URL'));
    monitor = connect(Number(port), hostname, () => monitor.write('MONITOR\r\n'));
    monitor.setEncoding('utf8').on('data', (lines: string) => commands.push(lines));
    await once(monitor, 'data');
    globalThis.fetch = async (...asked) => {
      const response = await plainFetch(...asked);
      const isProblem = response.headers.get('content-type')?.startsWith('application/problem+json');
      if (isProblem === true) problems.push(await response.clone().text());
      return response;
    };
  });
  afterAll(() => {
    globalThis.fetch = plainFetch;
    monitor.destroy();
  });

  it('are told once, to whom they belong, and stand in no log, refusal, queue or trace', async () => {
    const here = await openTestStudio({ url: api.url, database });
    const told = [...(await useEverySecret(api, here)), ...Object.entries(secrets)];
    await failInside(here);
    await stop(worker);
    await api.stop();

    const places = {
      'the log of the API': logs.api.join(''),
      'the log of the worker': logs.worker.join(''),
      'a refusal': problems.join('\n'),
      'a command to Redis': commands.join(''),
      'a trace': receiver.spans.map(({ text }) => text).join('\n'),
    };
    expect(told.filter(([, value]) => value.length < 8)).toEqual([]);
    const found = told.flatMap(([name, value]) =>
      Object.entries(places)
        .filter(([, text]) => text.includes(value))
        .map(([place]) => `${name} in ${place}`),
    );
    expect(found).toEqual([]);
    expect(await redisKeysWith(...told.map(([, value]) => value))).toEqual([]);

    // What was looked through was there to be looked through.
    expect(problems.length).toBeGreaterThan(8);
    for (const code of ['internal', 'request.invalid', 'access.not-signed-in', 'sign-ins.refused'])
      expect(problems.join()).toContain(`"code":"${code}"`);
    expect(places['the log of the API']).toContain('request failed');
    expect(places['the log of the worker']).toContain('"msg":"put_off"');
    for (const word of ['send-message', 'send-password-link', 'deliver-webhook'])
      expect(places['a command to Redis']).toContain(word);
    process.stdout.write(
      `secrets: ${String(told.length)} looked for in ${String(problems.length)} refusals, ` +
        `${String(places['a command to Redis'].split('\r\n').length)} commands to Redis, ${String(receiver.spans.length)} spans and ` +
        `${String((places['the log of the API'] + places['the log of the worker']).split('\n').length)} lines\n`,
    );
  });

  /** A fault of ours while a note with a word about somebody's health is written. */
  async function failInside({ owner, desk }: TestStudio): Promise<void> {
    const { clientId } = await takeOnClient(owner, 'fault@riders.example');
    const admin = new pg.Client({ connectionString: database.adminUrl });
    await admin.connect();
    await admin.query(
      `ALTER TABLE client_notes ADD CONSTRAINT no_more_notes CHECK (text = 'none') NOT VALID`,
    );
    await admin.end();
    const { response } = await desk.POST('/v1/clients/{clientId}/notes', {
      params: { path: { clientId } },
      body: { text: medicalWords.join(' ') },
    });
    expect(response.status).toBe(500);
  }
});
