import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { apiConfig } from '@studio/config';
import { randomUUID } from 'node:crypto';
import { createApp } from '../../apps/api/src/create-app.js';
import { serveMetrics } from '../../apps/api/src/http/metrics.js';
import { freePort } from '../../scripts/services/ports.mjs';
import { eventually } from '../helpers/mail.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';
import { startWorker, stop } from '../helpers/worker.js';

let api: TestApi;
let studio: TestStudio;
const email = `${randomUUID().slice(0, 8)}@riders.example`;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  const client = await takeOnClient(studio.owner, email);
  await screen(studio.desk, client.clientId);
  await signedSession(studio.owner, client);
});
afterAll(() => api.close());

const queues = () => dataOf(studio.owner.GET('/v1/queues'));
const sums = async (): Promise<Record<'scheduled' | 'waiting' | 'late', number>> => {
  const all = (await queues()).queues;
  const sum = (key: keyof components['schemas']['QueueResponse']) =>
    all.reduce((total, queue) => total + Number(queue[key]), 0);
  return { scheduled: sum('scheduled'), waiting: sum('waiting'), late: sum('late') };
};

describe('the live view', () => {
  it('tells what is promised, what waits and what is late while no worker runs', async () => {
    const before = await sums();
    expect(before.scheduled).toBeGreaterThan(0);
    expect(before.late).toBe(0);
    expect((await queues()).workers).toEqual({ alive: 0, lastHeardOfAt: null });

    await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 360 * 86_400 } }));
    const after = await sums();
    expect(after.scheduled).toBe(0);
    expect(after.waiting).toBe(before.waiting + before.scheduled);
    expect(after.late).toBeGreaterThan(0);
    const oldest = (await queues()).queues.flatMap(({ oldestDueAt }) => oldestDueAt ?? []).sort()[0];
    expect(Date.parse(oldest ?? '')).toBeLessThan(Date.now() + 60_000);
  });

  it('is of the own studio alone', async () => {
    const other = await openTestStudio(api);
    const { queues: theirs } = await dataOf(other.owner.GET('/v1/queues'));
    expect(theirs.map(({ waiting, scheduled, late, failed }) => waiting + scheduled + late + failed)).toEqual(
      theirs.map(() => 0),
    );
  });
});

it('a worker is seen to live, clears the backlog, and tells Prometheus of jobs and of nobody', async () => {
  const port = await freePort();
  const worker = startWorker(api, `q${randomUUID().slice(0, 8)}`, { WORKER_PORT: String(port) });
  try {
    await eventually('nothing waits', 30, async () => ((await sums()).waiting === 0 ? true : undefined));
    const { workers } = await queues();
    expect(workers.alive).toBe(1);
    const text = await (await fetch(`http://127.0.0.1:${port}/metrics`)).text();
    expect(text).toMatch(/studio_order_try_seconds_count\{job="summarise-outcome",outcome="done"\} [1-9]/);
    expect(text).toMatch(/studio_orders_handed_over_total\{job="summarise-outcome"\} [1-9]/);
    expect(text).toMatch(/studio_orders_due\{job="send-message"\} 0/);
    expect(text).not.toContain(studio.studio.studioId);
    expect(text).not.toContain('@');
  } finally {
    expect(await stop(worker)).toBe(0);
  }
  expect((await queues()).workers.alive).toBe(0);
});

it('the API tells Prometheus of routes, at a port of its own', async () => {
  const config = apiConfig({
    NODE_ENV: 'test',
    DATABASE_URL: api.database.apiUrl,
    PUBLIC_URL: 'http://127.0.0.1',
    TOKEN_SECRET: 'x'.repeat(32),
    WEBHOOK_KEY: 'x'.repeat(32),
    MASTER_KEYS: `test:${'x'.repeat(43)}`,
    LOG_LEVEL: 'silent',
  });
  const app = await createApp(config);
  const metrics = `http://127.0.0.1:${await serveMetrics(app, { host: '127.0.0.1', port: 0 })}/metrics`;
  await app.listen(0, '127.0.0.1');
  const [id, secret] = [randomUUID(), 'a.one-time.link'];
  await fetch(`${await app.getUrl()}/v1/clients/${id}?named=${secret}`);
  const text = await (await fetch(metrics)).text();
  expect(text).toContain(
    'studio_http_answer_seconds_count{method="GET",route="/v1/clients/:clientId",status="401"} 1',
  );
  expect(text).not.toContain(id);
  expect(text).not.toContain(secret);
  expect((await fetch(`${await app.getUrl()}/metrics`)).status).not.toBe(200);
  await app.close();
  await expect(fetch(metrics)).rejects.toThrow();
});
