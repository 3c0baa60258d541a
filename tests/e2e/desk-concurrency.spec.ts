import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { IdempotencyKey } from '@studio/database';
import pg from 'pg';
import { asStudio } from '../helpers/keys.js';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

const clients = 50;
const calls = 2000;

let api: TestApi;
let studio: TestStudio;
beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

/** The same calls every time (Park–Miller); what they meet differs with who comes first. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

it(`keeps its promises while ${clients} people book, move, cancel and hold at once`, async () => {
  const { owner, desk } = studio;
  const { clientId } = await takeOnClient(owner);
  const fitters = [owner.signedIn.id];
  for (const name of ['two', 'three', 'four']) {
    const person = { email: `${name}@fitters.example`, displayName: name, roles: ['fitter' as const] };
    const body = { ...person, password: 'a password for tests only' };
    fitters.push((await dataOf(owner.POST('/v1/staff', { body }))).id);
  }
  const rooms = [studio.roomId];
  for (const name of ['Two', 'Three'])
    rooms.push((await dataOf(owner.POST('/v1/rooms', { body: { name } }))).id);
  for (const name of ['A', 'B']) await dataOf(owner.POST('/v1/benches', { body: { name } }));
  const services = [studio.serviceId];
  for (const service of [
    { name: 'Buffered', durationMinutes: 45, bufferBeforeMinutes: 10, bufferAfterMinutes: 5 },
    { name: 'Curing', durationMinutes: 30, curingMinutes: 120 },
  ])
    services.push((await dataOf(owner.POST('/v1/services', { body: service }))).id);

  const statuses = new Map<string, number>();
  const known: { id: string; version: number }[] = [];
  const count = (what: string, status: number) => {
    const key = `${what} ${status}`;
    statuses.set(key, (statuses.get(key) ?? 0) + 1);
  };
  const one = async (client: number): Promise<void> => {
    const next = random(client + 1);
    const pick = <T>(list: readonly T[]): T => list[next(list.length)] as T;
    next(2);
    for (let call = 0; call < calls / clients; call += 1) {
      const startsAt = new Date(Date.UTC(2090, 4, 2 + next(3), 6 + next(12), 15 * next(4))).toISOString();
      const resources = { fitterId: pick(fitters), roomId: pick(rooms) };
      const kind = next(10);
      const seen = known.length > 0 ? pick(known) : undefined;
      if (kind < 5 || seen === undefined) {
        const hold = kind < 2 ? { holdMinutes: 5 } : {};
        const body = { clientId, serviceId: pick(services), ...resources, startsAt, ...hold };
        const header = { 'Idempotency-Key': `${client}-${call}` };
        const sent = () => desk.POST('/v1/appointments', { params: { header }, body });
        const [{ data, response }, again] = await Promise.all([sent(), kind === 3 ? sent() : undefined]);
        count('create', response.status);
        if (data) known.push({ id: data.id, version: data.version });
        if (data && again?.data) expect(again.data.id).toBe(data.id);
        continue;
      }
      const of = {
        params: { path: { appointmentId: seen.id }, header: { 'If-Match': `"${seen.version}"` } },
      };
      const { data, response } =
        kind < 8
          ? await desk.PATCH('/v1/appointments/{appointmentId}', { ...of, body: { startsAt, ...resources } })
          : kind === 8
            ? await desk.POST('/v1/appointments/{appointmentId}/cancellation', {
                ...of,
                body: { reason: 'Ill.' },
              })
            : await desk.POST('/v1/appointments/{appointmentId}/booking', of);
      count(kind < 8 ? 'move' : kind === 8 ? 'cancel' : 'book', response.status);
      if (data) known.push({ id: data.id, version: data.version });
    }
  };
  await Promise.all(Array.from({ length: clients }, (_, client) => one(client)));

  expect([...statuses.values()].reduce((sum, n) => sum + n, 0)).toBe(calls);
  const expected = ['create 201', 'create 409', 'move 200', 'move 409', 'move 412', 'cancel 200', 'book 200'];
  for (const key of expected) expect([key, (statuses.get(key) ?? 0) > 0]).toEqual([key, true]);
  for (const key of statuses.keys()) expect(key).toMatch(/ (200|201|409|412)$/);

  const database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
  try {
    const none = async (what: string, sql: string) => {
      expect([what, (await database.query(sql)).rows]).toEqual([what, []]);
    };
    const taking = `state IN ('held', 'booked')`;
    for (const [resource, span] of [
      ['fitter_id', 'occupied'],
      ['room_id', 'occupied'],
      ['bench_id', 'curing'],
    ] as const)
      await none(
        `${resource} is taken twice`,
        `SELECT a.id, b.id FROM appointments a JOIN appointments b
           ON a.id < b.id AND a.${resource} = b.${resource} AND a.${span} && b.${span}
          WHERE a.${taking} AND b.${taking}`,
      );
    await none(
      'the history ends in another state, time or number of steps',
      `SELECT a.id FROM appointments a
         LEFT JOIN LATERAL (SELECT c.*, count(*) OVER () AS steps FROM appointment_changes c
                             WHERE c.appointment_id = a.id ORDER BY c.id DESC LIMIT 1) last ON true
        WHERE (a.state, a.during, a.fitter_id, a.room_id, a.version::bigint)
           IS DISTINCT FROM (last.state, last.during, last.fitter_id, last.room_id, last.steps)`,
    );
    await none(
      'a visit takes other than its service says',
      `SELECT a.id FROM appointments a JOIN services s ON s.id = a.service_id
        WHERE a.occupied <> tstzrange(lower(a.during) - make_interval(mins => s.buffer_before_minutes),
                                      upper(a.during) + make_interval(mins => s.buffer_after_minutes))
           OR upper(a.during) - lower(a.during) <> make_interval(mins => s.duration_minutes)
           OR (s.curing_minutes > 0) <> (a.curing IS NOT NULL)`,
    );
    const answers = await asStudio(api.database, studio.studio.studioId, (tx) => tx.find(IdempotencyKey));
    const made = answers.flatMap(({ answer }) =>
      answer !== null && 'startsAt' in answer ? [(answer as { id?: string }).id] : [],
    );
    expect(answers.filter(({ answer }) => answer === null)).toEqual([]);
    expect(made.length).toBeGreaterThan(20);
    expect(new Set(made).size).toBe(made.length);
    const { rows } = await database.query<{ n: number }>(
      `SELECT count(*)::integer AS n FROM appointments WHERE ${taking}`,
    );
    expect(rows[0]?.n).toBeGreaterThan(20);
  } finally {
    await database.end();
  }
}, 120_000);
