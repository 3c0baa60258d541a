import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { Queue, Worker } from 'bullmq';
import path from 'node:path';
import { eventually } from '../../../tests/helpers/mail.js';
import { dataFolder } from '../../../scripts/services/paths.mjs';
import { Processes } from '../../../scripts/services/processes.mjs';
import { startRedis, startSentinels } from '../../../scripts/services/redis.mjs';
import { redisConnection } from './redis-connection.js';

const processes = new Processes(path.join(dataFolder('test'), 'sentinels'));
const primaryName = 'test';
const prefix = '{test}';
const done = new Set<string>();

let queue: Queue;
let worker: Worker;

beforeAll(async () => {
  await processes.stopLeftovers();
  const url = await startRedis(processes, { throwaway: true, name: 'redis-1' });
  await startRedis(processes, { throwaway: true, name: 'redis-2', replicaOf: url });
  const sentinels = await startSentinels(processes, { primaryUrl: url, primaryName, count: 3 });
  const connection = redisConnection({
    ...{ url: 'redis://by-sentinels', sentinels, sentinelPassword: null, primaryName },
  });
  queue = new Queue('jobs', { connection, prefix });
  worker = new Worker('jobs', (job) => Promise.resolve(done.add(job.name)), { connection, prefix });
  queue.on('error', () => undefined);
  worker.on('error', () => undefined);
});
afterAll(async () => {
  await worker.close();
  await queue.close();
  await processes.stopAll();
});

it('finds the primary by the Sentinels, and the one that takes its place', async () => {
  await queue.add('before', {});
  await eventually('the first job', 20, () => Promise.resolve(done.has('before') || undefined));
  await processes.end('redis-1', 'SIGKILL');
  await queue.add('after', {});
  await eventually('the job after', 40, () => Promise.resolve(done.has('after') || undefined));
  expect([...done]).toEqual(['before', 'after']);
});
