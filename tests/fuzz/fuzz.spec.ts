import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { randomInt } from 'node:crypto';
import { AccessTokens } from '../../apps/api/src/http/access-tokens.js';
import { makeEveryRecord } from '../helpers/every-record.js';
import { operations, type Operation } from '../helpers/openapi.js';
import { openTestStudio, startTestApi, type TestApi } from '../helpers/studio.js';
import { wouldRun } from './hostile.js';
import { requestsTo } from './requests.js';
import { connections, send, sendBytes, type Answer, type HostileRequest } from './send.js';
import { Writes } from './writes.js';

const isFull = process.env['FUZZ'] === 'full';
/** The same requests every time, but for a full run, which tells its own. */
const seed = Number(process.env['FUZZ_SEED'] ?? (isFull ? randomInt(2 ** 31) : 20_261_125));
const runs = isFull ? 2_000 : 15;

/** What an operation writes though it refuses. */
const writesThoughRefused: ReadonlyMap<string, readonly string[]> = new Map([
  // A refresh token used before ends the sign-in it belongs to.
  ['refreshSignIn', ['refresh_tokens']],
]);

/** Reads before changes, and the clock, which changes everything, last. */
const order = ['GET', 'POST', 'PATCH', 'PUT', 'DELETE'];
const inOrder = [...operations].sort((a, b) => rank(a) - rank(b));
function rank({ id, method }: Operation): number {
  return id === 'advanceTestClock' ? order.length : order.indexOf(method);
}

const secret = 'a secret for the tokens of the fuzzer only';
let api: TestApi;
let writes: Writes;
let ids: Record<string, string>;
let tokens: string[];
const figures = { operations: 0, inputs: 0, refused: 0, failed: 0 };

beforeAll(async () => {
  api = await startTestApi({ TOKEN_SECRET: secret, LOG_LEVEL: process.env['FUZZ_LOG'] ?? 'silent' });
  const here = await openTestStudio(api);
  ids = await makeEveryRecord(here);
  writes = await Writes.watch(api.database.adminUrl);
  const { studioId } = here.studio;
  const userId = here.owner.signedIn.id;
  const issuing = new AccessTokens(secret);
  tokens = await Promise.all([
    issuing.issue({ studioId, userId, roles: ['owner', 'fitter'], clinician: true }),
    issuing.issue({ studioId, userId, roles: ['owner', 'fitter'] }),
    issuing.issue({ studioId, userId, roles: ['front_desk'] }),
  ]);
});
afterAll(async () => {
  connections.destroy();
  await writes.end();
  await api.close();
  const { operations: of, inputs, refused, failed } = figures;
  process.stdout.write(
    `fuzz: ${String(of)} operations, ${String(inputs)} inputs (${String(refused)} refused), ` +
      `${String(failed)} answers of 5xx; seed ${String(seed)}\n`,
  );
});

describe('hostile requests are refused in order', () => {
  it.each(inOrder.map((operation) => [operation.id, operation] as const))('%s', async (_, operation) => {
    figures.operations += 1;
    const requests = requestsTo(operation, { ids, tokens });
    await writes.since();
    const check = async (request: HostileRequest): Promise<void> => {
      const answer = await send(api.url, request);
      figures.inputs += 1;
      if (answer.status >= 500) figures.failed += 1;
      expectOrderly(answer);
      const written = await writes.since();
      if (answer.status < 400) return;
      figures.refused += 1;
      const allowed = writesThoughRefused.get(operation.id) ?? [];
      expect(written.filter((table) => !allowed.includes(table))).toEqual([]);
    };
    await fc.assert(fc.asyncProperty(requests, check), { seed, numRuns: runs });
  });

  it.each([
    'GET / HTTP/9.9\r\n\r\n',
    'GET /v1/clients\r\n\r\n',
    'GET /\0 HTTP/1.1\r\nhost: x\r\n\r\n',
    'GET /v1/clients HTTP/1.1\r\nhost: x\r\nif-match: a\0b\r\n\r\n',
    'GET /v1/clients HTTP/1.1\r\nhost: x\r\n: no name\r\n\r\n',
    `GET /${'x'.repeat(40_000)} HTTP/1.1\r\nhost: x\r\n\r\n`,
    'POST /v1/sign-ins HTTP/1.1\r\nhost: x\r\ncontent-length: 1\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n',
    'POST /v1/sign-ins HTTP/1.1\r\nhost: x\r\ncontent-length: -1\r\n\r\n',
    '\x16\x03\x01\x02\x00',
  ])('also when they are no HTTP: %j', async (bytes) => {
    expectOrderly(await sendBytes(api.url, bytes));
  });

  it('and leave every object as it was', () => {
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

function expectOrderly({ status, mediaType, text }: Answer): void {
  if (status >= 500) throw new Error(`${String(status)}: ${text.slice(0, 400)}`);
  if (mediaType === 'text/html') for (const markup of wouldRun) expect(text).not.toContain(markup);
  if (status < 400) return;
  expect(mediaType).toBe('application/problem+json');
  expect(JSON.parse(text)).toMatchObject({
    status,
    type: expect.stringMatching(/^urn:fitting-studio:problem:/),
    title: expect.stringMatching(/./),
    code: expect.stringMatching(/./),
    requestId: expect.stringMatching(/./),
  });
}
