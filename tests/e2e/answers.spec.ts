import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { spawn, type ChildProcess } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import path from 'node:path';
import { text } from 'node:stream/consumers';
import { setTimeout as sleep } from 'node:timers/promises';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { createTestDatabase, type TestDatabase } from '../helpers/database.js';
import { eventually } from '../helpers/mail.js';
import { stop } from '../helpers/worker.js';

let database: TestDatabase;
let api: ChildProcess;
let logged: Promise<string>;
let url: string;

beforeAll(async () => {
  database = await createTestDatabase();
  const port = String(await freePort(3300));
  url = `http://127.0.0.1:${port}`;
  api = spawn(process.execPath, [bundleOf('api')], {
    env: {
      PATH: process.env['PATH'],
      DATABASE_URL: database.apiUrl,
      PUBLIC_URL: url,
      API_PORT: port,
      TOKEN_SECRET: randomBytes(32).toString('hex'),
      WEBHOOK_KEY: randomBytes(32).toString('hex'),
      MASTER_KEYS: `test:${randomBytes(32).toString('base64url')}`,
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (api.stdout) logged = text(api.stdout);
  await eventually('the API', 30, () =>
    fetch(`${url}/health/ready`).then(
      ({ ok }) => ok || undefined,
      () => undefined,
    ),
  );
});
afterAll(async () => {
  await stop(api, 'SIGKILL');
  await database.drop();
});

const post = (body: string, type = 'application/json'): Promise<Response> =>
  fetch(`${url}/v1/sign-ins`, { method: 'POST', body, headers: { 'content-type': type } });
const nested = (depth: number): string => `${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`;

/** Ways to be refused before and after a feature sees the request. */
const refused: readonly [what: string, status: number, ask: () => Promise<Response>][] = [
  ['no such address', 404, () => fetch(`${url}/v1/nothing?name=Ada`)],
  ['nobody signed in', 401, () => fetch(`${url}/v1/clients`)],
  ['no JSON', 400, () => post('{')],
  ['fields that are not known', 400, () => post('{"who":"Ada"}')],
  ['a body of 257 KiB', 413, () => post(JSON.stringify('x'.repeat(257 * 1024)))],
  ['a body nested 33 deep', 400, () => post(nested(33))],
  ['a body nested 40,000 deep', 400, () => post(nested(40_000))],
  ['a body that is no JSON', 415, () => post('<a/>', 'application/xml')],
  ['a method that is not known', 404, () => fetch(`${url}/v1/sign-ins`, { method: 'PROPFIND' })],
];

describe('every answer', () => {
  it.each([
    ['of data', () => fetch(`${url}/health/live`)],
    ...refused.map(([what, , ask]) => [`to ${what}`, ask] as const),
  ])('%s tells browsers to keep, embed and guess nothing', async (_, ask) => {
    const { headers } = await ask();
    // OWASP REST Security Cheat Sheet, "Security Headers".
    expect(Object.fromEntries(headers)).toMatchObject({
      'cache-control': 'no-store',
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
      'strict-transport-security': 'max-age=31536000; includeSubDomains',
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
    });
    expect(headers.has('server') || headers.has('x-powered-by')).toBe(false);
  });

  it('lets no page of another origin read it', async () => {
    const origin = 'https://elsewhere.example';
    const asked = await fetch(`${url}/v1/clients`, {
      method: 'OPTIONS',
      headers: { origin, 'access-control-request-method': 'GET' },
    });
    const read = await fetch(`${url}/health/live`, { headers: { origin } });
    for (const { headers } of [asked, read]) {
      expect([...headers.keys()].filter((name) => name.startsWith('access-control-'))).toEqual([]);
    }
  });
});

it('closes a connection whose head does not fit', async () => {
  const socket = connect(Number(new URL(url).port), '127.0.0.1');
  socket.write(`GET /health/live HTTP/1.1\r\nhost: x\r\nx-long: ${'x'.repeat(20_000)}\r\n\r\n`);
  // RFC 6585, 5: Request Header Fields Too Large.
  expect(await text(socket)).toMatch(/^HTTP\/1\.1 431 /);
});

// RFC 9112, 9.6: a server that closes while the other still sends resets the connection, and its answer is lost.
it('reads a body that is too long to its end before it refuses it', async () => {
  const half = 'x'.repeat(200 * 1024);
  const socket = connect(Number(new URL(url).port), '127.0.0.1');
  const answered = text(socket);
  socket.write(
    `POST /v1/sign-ins HTTP/1.1\r\nhost: x\r\ncontent-type: application/json\r\ncontent-length: ${2 * half.length}\r\n\r\n${half}`,
  );
  expect(await Promise.race([answered, sleep(500, 'nothing yet')])).toBe('nothing yet');
  socket.write(half);
  expect(await answered).toMatch(/^HTTP\/1\.1 413 /);
});

describe('the API as it is run, from one file', () => {
  it('says of itself what the modules it was put together from say', async () => {
    const document = path.join(import.meta.dirname, '../../libs/api-client/openapi.json');
    const told: unknown = await (await fetch(`${url}/openapi.json`)).json();
    expect(told).toEqual(JSON.parse(readFileSync(document, 'utf8')));
  });

  it('has its page of documentation, and all that page asks for', async () => {
    const page = await (await fetch(`${url}/docs`)).text();
    const asked = [...page.matchAll(/(?:src|href)="(?!data:)([^"]+)"/g)].map(([, address = '']) => address);
    expect(asked.length).toBeGreaterThan(2);
    const missing = asked.map(async (address) => {
      const answer = await fetch(new URL(address, `${url}/docs`));
      // Unread, the longest would keep the API from closing.
      await answer.arrayBuffer();
      return answer.ok ? [] : [address];
    });
    expect((await Promise.all(missing)).flat()).toEqual([]);
  });
});

describe('every refusal', () => {
  const ids: string[] = [];

  it.each(refused)('of %s is a problem document: %i', async (_, status, ask) => {
    const response = await ask();
    expect([response.status, response.headers.get('content-type')]).toEqual([
      status,
      expect.stringContaining('application/problem+json'),
    ]);
    const problem = (await response.json()) as { status: number; requestId: string };
    expect(problem.status).toBe(status);
    expect(problem.requestId).toBe(response.headers.get('x-request-id'));
    ids.push(problem.requestId);
  });

  it('is in the log by its request id, without what was asked', async () => {
    await stop(api);
    const lines = (await logged)
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line) as { msg: string; reqId?: string; route?: string });
    const ofRequests = lines.filter(({ msg }) => !msg.startsWith('Server listening'));
    expect(ofRequests.filter(({ reqId }) => reqId === undefined)).toEqual([]);
    const answered = lines.filter(({ msg }) => msg === 'answered').map(({ reqId }) => reqId);
    expect(answered).toEqual(expect.arrayContaining(ids));
    expect(ids).toHaveLength(refused.length);
    expect(await logged).not.toContain('Ada');
  });
});
