import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { randomUUID } from 'node:crypto';
import { nothingWrong, screen, takeOnClient } from '../../../../../tests/helpers/rider.js';
import { at, consent, cure, doSteps, openShoeWork } from '../../../../../tests/helpers/shoe-work.js';
import {
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../../../../../tests/helpers/studio.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { OpenDueTasksJob } from './open-due-tasks.job.js';

let api: TestApi;
let studio: TestStudio;
let connected: Connected;
let job: OpenDueTasksJob;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  connected = await connect(api.database.workerUrl, 2);
  job = new OpenDueTasksJob(connected.transaction);
});
afterAll(async () => {
  await connected.close();
  await api.close();
});

const day = 86_400_000;
const run = () => job.handle({ studioId: studio.studio.studioId, outboxId: randomUUID(), payload: {} });
const pass = (days: number) =>
  dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: days * 86_400 } }));
const tasksOf = async (clientId: string): Promise<components['schemas']['TaskResponse'][]> =>
  (await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { clientId } } }))).items;
const kindsOf = async (clientId: string): Promise<string[]> =>
  (await tasksOf(clientId)).map(({ kind }) => kind);

/** Every visit at an hour of its own, `days` from now by the clock that tests may set. */
let taken = 0;
async function book(clientId: string, days: number) {
  const { now } = await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
  const startsAt = new Date(Date.parse(now) + days * day + taken++ * 2 * 3_600_000).toISOString();
  const { serviceId, roomId, owner } = studio;
  const body = { clientId, serviceId, roomId, fitterId: owner.signedIn.id, startsAt, evenOutsideHours: true };
  return dataOf(studio.desk.POST('/v1/appointments', { body }));
}

describe('intake missing', () => {
  it('two days before the visit, once, until it is handed in', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const { id } = await book(clientId, 5);
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(4);
    await run();
    await run();
    expect(await tasksOf(clientId)).toMatchObject([
      { kind: 'intake_missing', role: 'front_desk', subjectId: id, overdue: true },
    ]);
    await screen(studio.desk, clientId);
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
  });

  it('goes with the visit that is cancelled, and comes anew for one that was moved', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const visit = await book(clientId, 1);
    await run();
    expect(await kindsOf(clientId)).toEqual(['intake_missing']);
    const moved = await dataOf(
      studio.desk.PATCH('/v1/appointments/{appointmentId}', {
        params: { path: { appointmentId: visit.id }, header: { 'If-Match': `"${visit.version}"` } },
        body: {
          startsAt: new Date(Date.parse(visit.startsAt) + 10 * day).toISOString(),
          evenOutsideHours: true,
        },
      }),
    );
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(10);
    await run();
    expect(await kindsOf(clientId)).toEqual(['intake_missing']);
    await dataOf(
      studio.desk.POST('/v1/appointments/{appointmentId}/cancellation', {
        params: { path: { appointmentId: visit.id }, header: { 'If-Match': `"${moved.version}"` } },
        body: { reason: 'Ill.' },
      }),
    );
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
  });

  it('is not opened again when somebody has seen to it', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    await book(clientId, 1);
    await run();
    const [task] = await tasksOf(clientId);
    await dataOf(
      studio.desk.POST('/v1/tasks/{taskId}/completion', {
        params: { path: { taskId: task?.id ?? '' }, header: { 'If-Match': '"1"' } },
      }),
    );
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
  });
});

describe('for the fitters', () => {
  it('a referral overdue, until it is answered; a clearance that ran out, until another stands', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const of = { params: { path: { clientId } } };
    await screen(studio.desk, clientId, { ...nothingWrong, bone_pain_on_loading: 'yes' });
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(10);
    await run();
    expect(await kindsOf(clientId)).toEqual(['referral_overdue']);

    const [referral] = await dataOf(studio.owner.GET('/v1/clients/{clientId}/referrals', of));
    const { now } = await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
    const clear = (validUntil?: string) =>
      dataOf(
        studio.owner.POST('/v1/referrals/{referralId}/clearance', {
          params: { path: { referralId: referral?.id ?? '' } },
          body: { reason: 'May ride.', clearedByClinician: 'Dr A. Holm', ...(validUntil && { validUntil }) },
        }),
      );
    await clear(new Date(Date.parse(now) + day).toISOString().slice(0, 10));
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(3);
    await run();
    expect(await kindsOf(clientId)).toEqual(['clearance_run_out']);
    const seen = await dataOf(studio.desk.GET('/v1/tasks', { params: { query: { clientId } } }));
    expect(seen.items).toEqual([]);
    await clear();
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
  });
});

describe('for the front desk', () => {
  const curing = async (days: number) => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.owner, client.clientId);
    const opened = await openShoeWork(studio.owner, client, { fixing: 'bonded' });
    const bonded = await doSteps(studio.owner, await consent(studio.owner, opened));
    return { clientId: client.clientId, work: await untilIn(bonded, days) };
  };
  const untilIn = async (work: components['schemas']['ShoeWorkResponse'], days: number) => {
    const { now } = await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds: 1 } }));
    return dataOf(cure(studio.owner, work, new Date(Date.parse(now) + days * day).toISOString()));
  };

  it('shoes to collect once they have cured, and not while they cure longer', async () => {
    const { clientId, work } = await curing(1);
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(1);
    await run();
    await run();
    expect(await tasksOf(clientId)).toMatchObject([
      { kind: 'shoe_work_to_collect', role: 'front_desk', subjectId: work.id, dueAt: work.toCollectAt },
    ]);
    const longer = await untilIn(work, 1);
    expect(await kindsOf(clientId)).toEqual([]);
    await pass(1);
    await run();
    expect(await tasksOf(clientId)).toMatchObject([{ dueAt: longer.toCollectAt }]);
  });

  it('nothing of shoe work that was given up', async () => {
    const { clientId, work } = await curing(1);
    await dataOf(
      studio.owner.POST('/v1/shoe-works/{shoeWorkId}/abandonment', {
        ...at(work),
        body: { reason: 'The bond did not hold.' },
      }),
    );
    await pass(2);
    await run();
    expect(await kindsOf(clientId)).toEqual([]);
  });
});
