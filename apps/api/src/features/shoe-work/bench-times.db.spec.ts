import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import pg from 'pg';
import { screen, takeOnClient } from '../../../../../tests/helpers/rider.js';
import { consent, cure, doSteps, openShoeWork } from '../../../../../tests/helpers/shoe-work.js';
import {
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../../../../../tests/helpers/studio.js';

let api: TestApi;
let studio: TestStudio;
let admin: pg.Client;
let clientId: string;
let benchId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ clientId } = await takeOnClient(studio.owner));
  admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await api.close();
});
let benches = 0;
beforeEach(async () => {
  const name = `Bench ${++benches}`;
  benchId = (await dataOf(studio.owner.POST('/v1/benches', { body: { name } }))).id;
});

/** A visit of half an hour in the studio whose shoes cure until `to`; hours of a day of its own. */
async function visit(from: number, to: number, state = 'booked'): Promise<string> {
  const at = (hour: number): string => new Date(Date.UTC(2089, 0, benches, hour)).toISOString();
  const { rows } = await admin.query<{ id: string }>(
    `INSERT INTO appointments (studio_id, client_id, service_id, fitter_id, room_id, during, occupied, bench_id, curing,
                               state, hold_expires_at, cancelled_by, cancelled_late, cancel_reason)
     VALUES ($1, $2, $3, $4, $5, tstzrange($6::timestamptz - interval '30 minutes', $6), tstzrange($6::timestamptz - interval '30 minutes', $6),
             $7, tstzrange($6, $8), $9, now(), 'client', false, 'Ill.') RETURNING id`,
    [
      ...[studio.studio.studioId, clientId, studio.serviceId, studio.owner.signedIn.id, studio.roomId],
      ...[at(from), benchId, at(to), state],
    ],
  );
  return rows[0]?.id ?? '';
}
const taken = async (): Promise<string[]> =>
  (
    await admin.query<{ id: string }>(
      'SELECT id FROM bench_times WHERE bench_id = $1 ORDER BY lower(during)',
      [benchId],
    )
  ).rows.map(({ id }) => id);

describe('the time of a bench', () => {
  it('is that of the visits that take time, and follows their state', async () => {
    const first = await visit(8, 10);
    const next = await visit(10, 12);
    await visit(8, 10, 'cancelled');
    expect(await taken()).toEqual([first, next]);
    await admin.query(`UPDATE appointments SET state = 'lapsed' WHERE id = $1`, [first]);
    expect(await taken()).toEqual([next]);
    await admin.query(`UPDATE appointments SET bench_id = NULL, curing = NULL WHERE id = $1`, [next]);
    expect(await taken()).toEqual([]);
  });

  it('is refused by the database to a second, and shared within one visit', async () => {
    const id = await visit(8, 12);
    const lie = (visitId: string) =>
      admin.query(
        `INSERT INTO bench_times (studio_id, id, bench_id, during, visit_id)
         SELECT studio_id, uuidv7(), bench_id, during, $2 FROM bench_times WHERE id = $1`,
        [id, visitId],
      );
    await expect(lie(clientId)).rejects.toMatchObject({ code: '23P01', constraint: 'bench_times_free' });
    await lie(id);
    expect(await taken()).toHaveLength(2);
  });

  it('goes to one of two who want it at the same moment, a visit and a case', async () => {
    const { owner, desk, roomId } = studio;
    const service = await dataOf(
      owner.POST('/v1/services', { body: { name: 'Bonding', durationMinutes: 5, curingMinutes: 600 } }),
    );
    const worked = await takeOnClient(owner);
    await screen(owner, worked.clientId);
    const opened = await openShoeWork(owner, worked, { fixing: 'bonded' });
    let work = await doSteps(owner, await consent(owner, opened));
    const outcomes: number[][] = [];
    for (let round = 1; round <= 5; round += 1) {
      const name = `Contended ${round}`;
      const contended = await dataOf(owner.POST('/v1/benches', { body: { name } }));
      const { now } = await dataOf(owner.POST('/v1/test-clock/advance', { body: { seconds: 60 } }));
      const inHours = (hours: number) => new Date(Date.parse(now) + hours * 3_600_000).toISOString();
      const body = {
        ...{ clientId: worked.clientId, serviceId: service.id, roomId, fitterId: owner.signedIn.id },
        ...{ startsAt: inHours(round), benchId: contended.id, evenOutsideHours: true },
      };
      const both = await Promise.all([
        desk.POST('/v1/appointments', { body }),
        cure(owner, work, inHours(20), contended.id),
      ]);
      outcomes.push(both.map(({ response }) => response.status));
      work = await dataOf(
        owner.GET('/v1/shoe-works/{shoeWorkId}', { params: { path: { shoeWorkId: work.id } } }),
      );
    }
    for (const outcome of outcomes)
      expect([
        [201, 409],
        [409, 200],
      ]).toContainEqual(outcome);
  });
});
