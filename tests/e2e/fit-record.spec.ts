import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import {
  baseline,
  nothingWrong,
  onlyNew,
  position,
  screen,
  takeOnClient,
  type TestClient,
} from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Schemas = components['schemas'];

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

async function openSession(
  answers: Record<string, unknown> = nothingWrong,
): Promise<{ client: TestClient; fitSessionId: string; of: { params: { path: { fitSessionId: string } } } }> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.owner, client.clientId, answers);
  const { id: fitSessionId } = await dataOf(studio.owner.POST('/v1/fit-sessions', { body: client }));
  return { client, fitSessionId, of: { params: { path: { fitSessionId } } } };
}

describe('opening a session', () => {
  it('takes an id the client made, and finds the session when it is sent again', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.owner, client.clientId);
    const id = '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11';
    const open = (body: Schemas['OpenSessionRequest']) => studio.owner.POST('/v1/fit-sessions', { body });
    const first = await dataOf(open({ ...client, id }));
    expect(first.id).toBe(id);
    expect(await dataOf(open({ ...client, id }))).toEqual(first);
    const other = await takeOnClient(studio.owner, 'other@riders.example');
    await screen(studio.owner, other.clientId);
    expect((await open({ ...other, id })).error).toMatchObject({
      status: 409,
      code: 'fit-sessions.id-taken',
    });
    const random = 'a0eebc99-9c0b-4ef8-bb6d-6bb9bd380a11';
    expect((await open({ ...client, id: random })).error).toMatchObject({ errors: [{ field: 'id' }] });
  });
});

describe('measurements', () => {
  it('come as a batch whole or not at all, each fault named by its item', async () => {
    const { of } = await openSession();
    const post = (items: Schemas['MeasurementRequest'][]) =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurement-batches', { ...of, body: { items } });
    const inseam = { kind: 'inseam', method: 'tape', unit: 'cm' } as const;
    const thigh = { kind: 'thigh_length', method: 'calliper' } as const;
    const { error } = await post([
      { ...inseam, repeats: [82] },
      { ...thigh, repeats: ['16 3/8 in'] },
      { ...inseam, repeats: [82, 820] },
      { ...thigh, side: 'left', repeats: ['long'] },
    ]);
    expect(error).toMatchObject({
      ...{ status: 422, code: 'fit-sessions.measurements-refused' },
      errors: [{ field: 'items.1.side' }, { field: 'items.2.repeats.1' }, { field: 'items.3.repeats.0' }],
    });
    const malformed = await post([{ ...inseam, repeats: [] }]);
    expect(malformed.error).toMatchObject({ status: 400, errors: [{ field: 'items.0.repeats' }] });
    const read = () => dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect((await read()).measurements).toEqual([]);

    const takenAt = '2026-03-02T09:00:00.000Z';
    const { items } = await dataOf(
      post([
        { ...inseam, repeats: [82], takenAt },
        { ...thigh, side: 'left', repeats: ['16 3/8 in', '16½"'] },
      ]),
    );
    expect(items).toMatchObject([
      { repeats: [82], unit: 'cm', mean: 820, typed: null, takenAt, takenBy: studio.owner.signedIn.id },
      { typed: ['16 3/8 in', '16½"'], unit: 'mm', side: 'left', warning: null },
    ]);
    expect(items[1]?.mean).toBeCloseTo((415.925 + 419.1) / 2, 6);
    expect((await read()).measurements).toEqual(items);
  });

  it('that do not hold are withdrawn or corrected with a reason, and stay', async () => {
    const { fitSessionId, of } = await openSession();
    const add = (repeats: number[]) =>
      dataOf(
        studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
          ...of,
          body: { kind: 'inseam', method: 'tape', repeats, unit: 'mm' },
        }),
      );
    const [wrong, doubtful] = [await add([720]), await add([815])];
    const at = (measurementId: string) => ({ params: { path: { fitSessionId, measurementId } } });
    const correct = (measurementId: string, body: Schemas['CorrectionRequest']) =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements/{measurementId}/correction', {
        ...at(measurementId),
        body,
      });
    const reason = 'Read from the wrong mark.';
    const right: Schemas['CorrectionRequest'] = {
      kind: 'inseam',
      method: 'tape',
      repeats: [820],
      unit: 'mm',
      reason,
    };
    expect((await correct(wrong.id, { ...right, kind: 'stature', repeats: [1800] })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'kind' }] },
    });
    const corrected = await dataOf(correct(wrong.id, right));
    expect(corrected).toMatchObject({ mean: 820, corrects: wrong.id, withdrawal: null });
    await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements/{measurementId}/withdrawal', {
        ...at(doubtful.id),
        body: { reason: 'The floor was not level.' },
      }),
    );
    const session = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(session.measurements.map(({ id }) => id)).toEqual([corrected.id]);
    expect(session.withdrawnMeasurements).toMatchObject([
      { id: wrong.id, withdrawal: { reason, by: studio.owner.signedIn.id } },
      { id: doubtful.id, withdrawal: { reason: 'The floor was not level.' } },
    ]);
    expect((await correct(wrong.id, right)).error).toMatchObject({
      ...{ status: 409, code: 'fit-sessions.changed-meanwhile' },
    });
    expect((await correct(fitSessionId, right)).response.status).toBe(404);
  });
});

describe('the flow of a session', () => {
  it('keeps place and time by stage in whatever order, and says what is missing', async () => {
    const { fitSessionId, of } = await openSession();
    const timer = (visitStage: 'bench' | 'interview', what: 'start' | 'stop', at?: string) =>
      studio.owner.POST(`/v1/fit-sessions/{fitSessionId}/timers/{visitStage}/${what}`, {
        params: { path: { fitSessionId, visitStage } },
        body: { ...(at !== undefined && { at }) },
      });
    await dataOf(timer('bench', 'start', '2026-03-02T09:00:00Z'));
    expect((await timer('bench', 'start')).error).toMatchObject({
      code: 'fit-sessions.timer',
      allowed: ['stop'],
    });
    expect((await timer('bench', 'stop', '2026-03-02T08:59:00Z')).error).toMatchObject({ status: 422 });
    await dataOf(timer('bench', 'stop', '2026-03-02T09:10:00Z'));
    expect((await timer('bench', 'stop')).error).toMatchObject({ allowed: ['start'] });
    await dataOf(timer('interview', 'start', '2026-03-02T09:10:00Z'));
    await dataOf(timer('bench', 'start', '2026-03-02T09:30:00Z'));
    await dataOf(timer('bench', 'stop', '2026-03-02T09:35:30Z'));
    const put = (body: Schemas['PlaceRequest']) =>
      studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/place', { ...of, body });
    const flow = await dataOf(put({ stage: 'bench', note: 'Left foot.', basedOn: 0 }));
    expect(flow.place).toEqual({ stage: 'bench', note: 'Left foot.', version: 1 });
    expect((await put({ stage: 'changes', basedOn: 0 })).error).toMatchObject({ standingVersion: 1 });
    expect(flow.stages.map(({ stage, seconds, running }) => [stage, seconds, running])).toEqual([
      ['interview', 0, true],
      ['bench', 930, false],
      ['on_the_bike', 0, false],
      ['changes', 0, false],
      ['hand_over', 0, false],
    ]);
    expect(
      flow.stages.flatMap(({ missing }) => missing.map(({ stage, what }) => `${stage} ${what}`)),
    ).toEqual([
      'interview baseline',
      'interview timer_interview',
      'on_the_bike position_found',
      'hand_over position_left',
    ]);
  });
});

describe('changes', () => {
  const lower = {
    items: [{ what: 'saddleHeightMm', from: 740, to: 735 }],
    why: 'Knee too straight.',
  } as const;
  const post = (
    of: Awaited<ReturnType<typeof openSession>>['of'],
    body: Omit<Schemas['ChangeRequest'], 'items'> & { items: readonly Schemas['ChangeItem'][] },
  ) =>
    studio.owner.POST('/v1/fit-sessions/{fitSessionId}/changes', {
      ...of,
      body: { ...body, items: [...body.items] },
    });

  it('are one at a time unless marked, in order, each with what the rider said', async () => {
    const { fitSessionId, of } = await openSession({
      ...nothingWrong,
      ...{ complaint_sites: ['neck'], 'complaint_quality@neck': ['pain'], 'complaint_when@neck': ['riding'] },
      ...{
        'complaint_duration@neck': 'two_to_six_weeks',
        'complaint_worst@neck': 2,
        'complaint_rises@neck': 'no',
      },
    });
    const two = [...lower.items, { what: 'stem', fromPart: '100 mm', toPart: '90 mm' }] as const;
    expect((await post(of, { ...lower, items: two })).error).toMatchObject({
      ...{ status: 422, errors: [{ field: 'severalAtOnce' }] },
    });
    expect((await post(of, { ...lower, severalAtOnce: true })).error).toMatchObject({ status: 422 });
    expect((await post(of, { ...lower, items: [{ what: 'stem', to: 90 }] })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'items.0.toPart' }, { field: 'items.0.to' }] },
    });
    expect((await post(of, { ...lower, items: [{ what: 'saddleTiltDeg', to: 99 }] })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'items.0.to' }] },
    });
    const first = await dataOf(post(of, lower));
    await dataOf(post(of, { ...lower, items: two, severalAtOnce: true }));
    const respond = (changeId: string, body: Schemas['RiderResponseRequest']) =>
      studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/changes/{changeId}/response', {
        params: { path: { fitSessionId, changeId } },
        body,
      });
    expect((await respond(first.id, {})).error).toMatchObject({ status: 400 });
    const pain = { site: 'neck', pain: 2 } as const;
    expect((await respond(first.id, { pains: [pain, pain] })).error).toMatchObject({
      ...{ status: 400, errors: [{ field: 'pains.1.site' }] },
    });
    await dataOf(respond(first.id, { comfort: 60, basedOn: 0 }));
    await dataOf(
      respond(first.id, { comfort: 65, pains: [pain], powerW: 180, heartRateBpm: 131, basedOn: 1 }),
    );
    expect((await respond(first.id, { comfort: 10, basedOn: 1 })).error).toMatchObject({
      standingVersion: 2,
    });
    const { changes } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(changes).toMatchObject([
      { number: 1, severalAtOnce: false, response: { version: 2, comfort: 65, pains: [pain], powerW: 180 } },
      { number: 2, severalAtOnce: true, items: two, response: null },
    ]);
    const { stages } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/flow', of));
    expect(stages[3]?.missing.map(({ what }) => what)).toEqual(['change_2.response']);
  });

  it('of a kind stop when a complaint on the bike is found to bar it, and a case is opened', async () => {
    const { client, of } = await openSession();
    await dataOf(post(of, lower));
    const complain = (answers: Record<string, unknown>, questionSetVersion = '1') =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/complaints', {
        ...of,
        body: { questionSetVersion, answers, remarks: 'Since the last change.' },
      });
    expect((await complain({ anything_new: 'perhaps' })).error).toMatchObject({
      ...{ status: 422, errors: [{ field: 'answers.anything_new' }] },
    });
    const nothing = await dataOf(complain({ anything_new: 'no' }));
    expect(nothing).toMatchObject({ raised: [], barred: [], referralIds: [] });
    const swelling = await dataOf(complain(onlyNew({ leg_swelling_one_sided_new: 'yes' })));
    expect(swelling.raised.map(({ ruleId }) => ruleId)).toContain('new-one-sided-leg-swelling');
    expect(swelling.barred).toContain('riding');
    const cases = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/referrals', {
        params: { path: { clientId: client.clientId } },
      }),
    );
    expect(swelling.referralIds).toEqual(cases.map(({ id }) => id));
    expect((await post(of, lower)).error).toMatchObject({
      ...{
        status: 409,
        code: 'screenings.not-permitted',
        rules: expect.arrayContaining(['new-one-sided-leg-swelling']),
      },
    });
    const { changes, complaints } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(changes).toHaveLength(1);
    expect(complaints).toHaveLength(2);
  });

  it('that a finding bars stop, and others go on', async () => {
    const { of } = await openSession({ ...nothingWrong, feet_numb_like_socks: 'yes' });
    const shim = { items: [{ what: 'shimLeftMm', from: 0, to: 3 }], why: 'Shorter leg.' } as const;
    const barred = await post(of, shim);
    expect(barred.error).toMatchObject({ status: 409, code: 'screenings.not-permitted' });
    await dataOf(post(of, lower));
  });

  it('signed, take nothing more', async () => {
    const { fitSessionId, of } = await openSession();
    await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...of, body: baseline }));
    for (const stage of ['found', 'left'] as const) {
      await dataOf(
        studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
          params: { path: { fitSessionId, stage } },
          body: position,
        }),
      );
    }
    await dataOf(studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', of));
    expect((await post(of, lower)).error).toMatchObject({ status: 409, code: 'fit-sessions.signed' });
    const { stages } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/flow', of));
    expect(stages.flatMap(({ missing }) => missing)).toEqual([]);
  });
});
