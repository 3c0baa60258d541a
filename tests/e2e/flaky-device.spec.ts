import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, signIn, type components, type StudioClient } from '@studio/api-client';
import { randomUUID } from 'node:crypto';
import { ApiProcess } from '../helpers/api-process.js';
import { createTestDatabase, type TestDatabase } from '../helpers/database.js';
import { FlakyDevice, plan, uuidV7 } from '../helpers/flaky-device.js';
import { screen, takeOnClient } from '../helpers/rider.js';
import { SessionModel, type Operation, type Stage } from '../helpers/session-model.js';
import { openStudio } from '../helpers/studio.js';
import { seededRandom } from '../outside/outcome-stats/seeded-random.js';

type Schemas = components['schemas'];

const owner = { email: 'owner@flaky.example', displayName: 'Owner', password: 'for tests only, and long' };
const counts = { tablet: 200, laptop: 100 };
const total = counts.tablet + counts.laptop;

let database: TestDatabase;
let api: ApiProcess;
let studio: StudioClient;
let clientId: string;
let fitSessionId: string;

beforeAll(async () => {
  database = await createTestDatabase();
  await openStudio(database.ownerUrl, {
    ...{ studioId: randomUUID(), handle: 'flaky', name: 'Flaky', timeZone: 'Europe/Oslo', owner },
  });
  api = await ApiProcess.start(database);
  studio = await signIn(api.url, { studio: 'flaky', email: owner.email, password: owner.password });
  const client = await takeOnClient(studio);
  await screen(studio, client.clientId);
  clientId = client.clientId;
  const body = { ...client, id: uuidV7() };
  fitSessionId = (await dataOf(studio.POST('/v1/fit-sessions', { body }))).id;
}, 90_000);
afterAll(async () => {
  await api.kill();
  await database.drop();
});

const send = (
  body: Schemas['OperationsRequest'],
  signal?: AbortSignal,
): Promise<Schemas['OperationsResponse']> =>
  dataOf(
    studio.POST('/v1/fit-sessions/{fitSessionId}/operations', {
      ...{ params: { path: { fitSessionId } }, body },
      ...(signal && { signal }),
    }),
  );

describe('300 operations of two devices with a bad connection, the API killed in the middle', () => {
  const random = seededRandom(20260302);
  const devices = Object.entries(counts).map(
    ([name, count]) => new FlakyDevice(plan(name, count, random), random, send),
  );
  const deviceOf = new Map(
    devices.flatMap(({ id, operations }) => operations.map((operation) => [operation.id, { id, operation }])),
  );
  const model = new SessionModel();
  let log: Schemas['OperationResponse'][];

  it('are all settled in the end, each with one outcome however often it was sent', async () => {
    let killed = false;
    const settled = (): number => devices.reduce((sum, device) => sum + device.outcomes.size, 0);
    const killing = async (): Promise<void> => {
      while (settled() < total / 3) await new Promise((resolve) => setTimeout(resolve, 20));
      expect(settled()).toBeLessThan(total);
      await api.restart();
      killed = true;
    };
    await Promise.all([killing(), ...devices.map((device) => device.sendAll())]);
    expect(killed).toBe(true);
    expect(settled()).toBe(total);
    const sent = devices.reduce((sum, device) => sum + device.sent, 0);
    const lost = devices.reduce((sum, device) => sum + device.lost, 0);
    const waited = devices.reduce((sum, device) => sum + device.waited, 0);
    // The connection was as bad as it was meant to be.
    expect([sent > 1.3 * total, lost > 10, waited > 10]).toEqual([true, true, true]);
  }, 120_000);

  it('were carried out once each, in the order of each device’s own count', async () => {
    log = [];
    for (let after: number | null = 0; after !== null;) {
      const page: Schemas['OperationPage'] = await dataOf(
        studio.GET('/v1/fit-sessions/{fitSessionId}/operations', {
          params: { path: { fitSessionId }, query: { after, limit: 77 } },
        }),
      );
      log.push(...page.items);
      after = page.next;
    }
    expect(log.map(({ number }) => number)).toEqual(Array.from({ length: total }, (_, place) => place + 1));
    for (const { id, operations } of devices) {
      const own = log.filter(({ deviceId }) => deviceId === id);
      expect(own.map((row) => row.id)).toEqual(operations.map((operation) => operation.id));
    }
  });

  it('had the outcomes that the model gives them', () => {
    const expected = log.map((row) => {
      const { id, operation } = deviceOf.get(row.id) as { id: string; operation: Operation };
      return [row.number, operation.kind, model.apply(operation, id)];
    });
    expect(log.map(({ number, kind, state }) => [number, kind, state])).toEqual(expected);
    for (const state of ['applied', 'refused', 'conflict'])
      expect(expected.filter((row) => row[2] === state).length).toBeGreaterThan(5);
    for (const device of devices)
      for (const row of log.filter(({ deviceId }) => deviceId === device.id))
        expect(device.outcomes.get(row.id)).toMatchObject({ state: row.state, number: row.number });
  });

  it('tell in a conflict what stands beside what was sent', () => {
    const conflicts = log.filter(({ state, kind }) => state === 'conflict' && kind === 'put_position');
    expect(conflicts.length).toBeGreaterThan(0);
    for (const { number, payload, standing, problem } of conflicts) {
      const { stage } = payload as { stage: Stage };
      const before = log.findLast(
        (row) =>
          (row.number ?? 0) < (number ?? 0) &&
          row.kind === 'put_position' &&
          row.state === 'applied' &&
          (row.payload as { stage: Stage }).stage === stage,
      );
      expect(problem).toMatchObject({ status: 409, code: 'fit-sessions.changed-meanwhile' });
      expect(standing).toEqual(before ? before.answer : null);
    }
  });

  it('left exactly the record of the model', async () => {
    const session = await dataOf(
      studio.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
    );
    const byId = <T extends { id: string }>(rows: T[]): T[] =>
      [...rows].sort((one, other) => (one.id < other.id ? -1 : 1));
    const measured = [...session.measurements, ...session.withdrawnMeasurements].map(
      ({ id, mean, withdrawal, corrects }) => ({
        ...{ id, meanMm: Math.round(mean * 1e6) / 1e6, withdrawn: withdrawal?.reason ?? null, corrects },
      }),
    );
    expect(byId(measured)).toEqual(
      byId(
        [...model.measurements].map(([id, { meanMm, withdrawn, corrects }]) => ({
          ...{ id, meanMm: Math.round(meanMm * 1e6) / 1e6, withdrawn, corrects },
        })),
      ),
    );
    expect(session.baseline).toMatchObject({ version: model.baseline?.version, ...model.baseline?.value });
    expect(session.place).toEqual({ version: model.place?.version, ...model.place?.value });
    expect(
      session.changes.map(({ id, number, items, response }) => [
        ...[id, number, items, response && [response.version, response.comfort]],
      ]),
    ).toEqual(
      model.changes.map(({ id, items, response }, place) => [
        ...[id, place + 1, items, response && [response.version, response.value.comfort]],
      ]),
    );
    const span = ({ stage, startedAt, stoppedAt }: Schemas['SpanResponse']): string =>
      `${startedAt} ${stage} ${String(stoppedAt)}`;
    expect(session.spans.map(span).sort()).toEqual(
      model.spans.map((item) => span(item as Schemas['SpanResponse'])).sort(),
    );
    const { items } = await dataOf(
      studio.GET('/v1/clients/{clientId}/positions', {
        params: { path: { clientId }, query: { limit: 200 } },
      }),
    );
    const versionsOf = (rows: { stage: string; version: number; mm: number | null }[]): string[] =>
      rows.map(({ stage, version, mm }) => `${stage} ${version} ${String(mm)}`).sort();
    expect(versionsOf(items.map((item) => ({ ...item, mm: item.saddleHeightMm })))).toEqual(
      versionsOf(model.positions.map((item) => ({ ...item, mm: item.value.saddleHeightMm }))),
    );
    expect(items.filter(({ stands }) => stands)).toHaveLength(
      new Set(model.positions.map(({ stage }) => stage)).size,
    );
  });

  it('go on being answered as they were, long after', async () => {
    const device = devices[0] as FlakyDevice;
    const operations = device.operations.slice(20, 40);
    const { results } = await device.post(operations);
    expect(results).toEqual(operations.map(({ id }) => device.outcomes.get(id)));
  });
});

describe('a device that is at fault', () => {
  it('is told, and nothing of the kind is kept', async () => {
    const device = new FlakyDevice(plan('other', 3, seededRandom(7)), seededRandom(8), send);
    const [one, two, three] = device.operations as [Operation, Operation, Operation];
    const tell = async (operation: Operation): Promise<string | undefined> =>
      (await device.post([operation])).results[0]?.problem?.code;
    expect((await device.post([three])).missing).toEqual([1, 2]);
    await device.post([one]);
    expect(await tell({ ...one, payload: { ...one.payload, note: 'another' } })).toBe(
      'fit-sessions.operation-id-reused',
    );
    expect(await tell({ ...two, id: uuidV7(), sequence: 1 })).toBe('fit-sessions.sequence-reused');
    expect(await tell({ ...two, id: uuidV7(), sequence: 3 })).toBe('fit-sessions.sequence-reused');
    expect(await tell({ ...two, id: uuidV7(), sequence: 5000 })).toBe('fit-sessions.sequence-too-far');
    const last = await device.post([two]);
    expect(last).toMatchObject({ settledUpTo: 3, missing: [] });
    expect(last.results.map(({ id }) => id)).toEqual([two.id, three.id]);
  });

  const operation = (sequence: number, payload: Record<string, unknown>): Operation => ({
    ...{ id: uuidV7(), sequence, kind: 'put_place' as const, payload, madeAt: '2026-03-02T09:00:00Z' },
  });

  it('has an unreadable payload refused by its field, and goes on', async () => {
    const device = new FlakyDevice([], seededRandom(9), send);
    const { results } = await device.post([
      operation(1, { stage: 'nowhere' }),
      operation(2, { stage: 'bench' }),
    ]);
    expect(results).toMatchObject([
      { state: 'refused', problem: { code: 'request.invalid', errors: [{ field: 'stage' }] } },
      { state: 'applied', answer: { stage: 'bench' } },
    ]);
  });

  it.each([
    ['NUL', { stage: 'bench', note: 'a\u0000b' }],
    ['half of a character', { stage: 'bench', note: '\ud800' }],
    ['NUL in the name of a field', { stage: 'bench', 'a\u0000b': 1 }],
    [
      'too many levels',
      { stage: 'bench', note: JSON.parse(`${'['.repeat(40)}${']'.repeat(40)}`) as unknown },
    ],
  ])('has one refused that cannot be kept, in its turn and for good, and goes on: %s', async (_, payload) => {
    const device = new FlakyDevice([], seededRandom(10), send);
    const first = operation(1, { stage: 'bench' });
    const unfit = operation(2, payload);
    const last = operation(3, { stage: 'on_the_bike' });
    expect((await device.post([unfit, last])).missing).toEqual([1]);
    const { results, settledUpTo } = await device.post([first, unfit, last]);
    expect(results.map(({ state, problem }) => [state, problem?.code])).toEqual([
      ['applied', undefined],
      ['refused', 'fit-sessions.payload-unreadable'],
      ['applied', undefined],
    ]);
    expect(settledUpTo).toBe(3);
    expect((await device.post([unfit])).results).toEqual([results[1]]);
  });
});
