import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, ProblemError, type components } from '@studio/api-client';
import pg from 'pg';
import {
  baseline,
  nothingWrong,
  openMeasuredSession,
  position,
  screen,
  signedSession,
  takeOnClient,
} from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Measurement = components['schemas']['MeasurementRequest'];

let api: TestApi;
let studio: TestStudio;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
});
afterAll(() => api.close());

const clearance = { reason: 'Examined, may ride.', clearedByClinician: 'Dr A. Holm' };
const open = (body: Parameters<typeof openMeasuredSession>[1]) =>
  studio.owner.POST('/v1/fit-sessions', { body });

describe('screening governs the session', () => {
  it('needs a consent, then a screening', async () => {
    const { id: clientId } = await dataOf(
      studio.desk.POST('/v1/clients', { body: { givenName: 'A', familyName: 'B' } }),
    );
    const refused = await studio.desk.POST('/v1/clients/{clientId}/screenings', {
      params: { path: { clientId } },
      body: { questionSetId: 'rider-intake', questionSetVersion: '2', answers: nothingWrong },
    });
    expect(refused.error).toMatchObject({
      status: 409,
      code: 'clients.consent-missing',
      consent: 'health_data',
    });
    const client = await takeOnClient(studio.owner);
    expect((await open(client)).error).toMatchObject({ status: 409, code: 'screenings.not-permitted' });
  });

  it('stays shut on a finding that forbids riding until a fitter records a clearance', async () => {
    const client = await takeOnClient(studio.owner);
    const answers = { ...nothingWrong, leg_swelling_one_sided_new: 'yes' };
    const { id: screeningId = '', notice } = await screen(studio.desk, client.clientId, answers);
    expect(notice).toBe('not_before_clearance');
    expect((await open(client)).error).toMatchObject({
      code: 'screenings.not-permitted',
      rules: ['new-one-sided-leg-swelling'],
    });

    // A later screening without the complaint does not lift it.
    await screen(studio.desk, client.clientId);
    expect((await open(client)).response.status).toBe(409);

    const of = { params: { path: { screeningId } } };
    expect(
      (await studio.desk.POST('/v1/screenings/{screeningId}/clearance', { ...of, body: clearance })).response
        .status,
    ).toBe(403);
    const noReason = { ...clearance, reason: '' };
    expect(
      (await studio.owner.POST('/v1/screenings/{screeningId}/clearance', { ...of, body: noReason })).error,
    ).toMatchObject({
      status: 400,
      errors: [{ field: 'reason' }],
    });
    await dataOf(studio.owner.POST('/v1/screenings/{screeningId}/clearance', { ...of, body: clearance }));
    expect((await open(client)).response.status).toBe(201);
    const again = await studio.owner.POST('/v1/screenings/{screeningId}/clearance', {
      ...of,
      body: clearance,
    });
    expect(again.error).toMatchObject({ status: 409, code: 'screenings.nothing-to-clear' });
  });

  it('takes a missing answer for no answer, and don’t know to an urgent question for yes', async () => {
    const client = await takeOnClient(studio.owner);
    const { chest_pain, ...unanswered } = nothingWrong;
    expect((await screen(studio.desk, client.clientId, unanswered)).notice).toBe('not_before_clearance');
    expect((await open(client)).error).toMatchObject({
      code: 'screenings.not-permitted',
      openQuestions: ['chest_pain', 'chest_pain_hours_ago'],
    });
    const dontKnow = await screen(studio.desk, client.clientId, { ...nothingWrong, chest_pain: 'unknown' });
    expect(dontKnow.notice).toBe('not_before_clearance');
  });

  it('refuses answers it cannot read, by question, and keeps nothing', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const of = { params: { path: { clientId } } };
    const hand = (answers: Record<string, unknown>, questionSetVersion = '2') =>
      studio.desk.POST('/v1/clients/{clientId}/screenings', {
        ...of,
        body: { questionSetId: 'rider-intake', questionSetVersion, answers },
      });
    expect((await hand({ chest_pain: 'maybe', shoe_size: 43 })).error).toMatchObject({
      status: 422,
      errors: [{ field: 'answers.chest_pain' }, { field: 'answers.shoe_size' }],
    });
    expect((await hand(nothingWrong, '0')).error).toMatchObject({ code: 'screenings.question-set-unknown' });
    expect((await hand(nothingWrong, '1')).error).toMatchObject({
      ...{ status: 422, code: 'screenings.question-set-superseded' },
      errors: [{ field: 'questionSetVersion', message: 'must be 2' }],
    });
    expect(await dataOf(studio.owner.GET('/v1/clients/{clientId}/screenings', of))).toEqual([]);
  });
});

describe('a session', () => {
  it('keeps what was typed, converts it, warns of the implausible and refuses the impossible', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const { measurements } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(measurements[0]).toMatchObject({
      kind: 'thigh_length',
      repeats: [43.4, 43.2],
      unit: 'cm',
      warning: null,
    });
    expect(measurements[0]?.mean).toBeCloseTo(433, 6);
    const measure = (repeats: number[]) =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
        ...of,
        body: { kind: 'inseam', method: 'tape', repeats, unit: 'mm' },
      });
    expect((await dataOf(measure([640]))).warning).toMatch(/Measure again/);
    expect((await measure([82])).error).toMatchObject({ status: 422, errors: [{ field: 'repeats.0' }] });
  });

  it('plans the cleat from its own measurements and says what is missing', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const plan = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...of, body: { side: 'left' } }),
    );
    expect(plan.now).toEqual({ behindMth1Mm: 5, shortOfMidfootMm: 55 });
    // Leg chain at 20° foot pitch, 27 mm back: between the independent table's 13.6 (24 mm) and 20.5 (36 mm).
    const plate = plan.options.find(({ way }) => way === 'rear_plate_24');
    expect(plate?.saddleHeightChangeMm.value).toBeLessThan(-13.6);
    expect(plate?.saddleHeightChangeMm.value).toBeGreaterThan(-20.5);
    const right = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', {
      ...of,
      body: { side: 'right' },
    });
    expect(right.error).toMatchObject({ status: 422, code: 'plans.not-measured-yet' });
    expect(right.error?.errors).toHaveLength(8);

    const choose = (way: string) =>
      studio.owner.POST('/v1/cleat-plans/{cleatPlanId}/choice', {
        params: { path: { cleatPlanId: plan.id } },
        body: { way: way as 'rear_plate_24', because: 'Because.' },
      });
    expect((await choose('arch_base_three_bolt')).error).toMatchObject({
      status: 409,
      code: 'plans.option-not-offered',
    });
    expect(await dataOf(choose('rear_plate_24'))).toMatchObject({ chosenWay: 'rear_plate_24' });
  });

  it('says which input makes a geometry impossible', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const body: Measurement = {
      kind: 'cleat_from_heel',
      side: 'left',
      method: 'tape',
      repeats: [340],
      unit: 'mm',
    };
    await dataOf(studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', { ...of, body }));
    const { error } = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', {
      ...of,
      body: { side: 'left' },
    });
    expect(error).toMatchObject({
      status: 422,
      code: 'fit-math.input.out-of-range',
      errors: [{ field: 'cleatFromHeelMm' }],
    });
  });

  it('bars shoe work, and only that, where a finding does', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId, { ...nothingWrong, foot_numb_off_bike: 'yes' });
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const plan = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...of, body: { side: 'left' } }),
    );
    const choose = (way: 'slot_extension' | 'rear_plate_24') =>
      studio.owner.POST('/v1/cleat-plans/{cleatPlanId}/choice', {
        params: { path: { cleatPlanId: plan.id } },
        body: { way, because: 'Because.' },
      });
    expect((await choose('slot_extension')).error).toMatchObject({
      status: 409,
      rules: ['foot-numb-off-the-bike'],
    });
    expect((await choose('rear_plate_24')).response.status).toBe(200);
  });

  it('is not signed while something is missing, and is final once it is', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const bare = await openMeasuredSession(studio.owner, client);
    const sign = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', {
      params: { path: { fitSessionId: bare } },
    });
    expect(sign.error).toMatchObject({
      status: 409,
      missing: ['baseline', 'position_found', 'position_left'],
    });
    const early = await studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
      params: { path: { fitSessionId: bare } },
      body: { text: 'Too early.' },
    });
    expect(early.error).toMatchObject({ code: 'fit-sessions.not-signed' });

    const { fitSessionId, cleatPlanId } = await signedSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    const signed = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(signed.contentHash).toMatch(/^[0-9a-f]{64}$/);
    expect(signed.followUps.map(({ week, state }) => [week, state])).toEqual([
      [2, 'scheduled'],
      [6, 'scheduled'],
    ]);

    const body: Measurement = { kind: 'inseam', method: 'tape', repeats: [820], unit: 'mm' };
    const writes = [
      studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...of, body: baseline }),
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', { ...of, body }),
      studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
        params: { path: { fitSessionId, stage: 'left' } },
        body: position,
      }),
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...of, body: { side: 'left' } }),
      studio.owner.POST('/v1/cleat-plans/{cleatPlanId}/choice', {
        params: { path: { cleatPlanId } },
        body: { way: 'within_slots', because: 'Changed my mind.' },
      }),
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', of),
    ];
    for (const { error } of await Promise.all(writes))
      expect(error).toMatchObject({ status: 409, code: 'fit-sessions.signed' });

    const amended = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
        ...of,
        body: { text: 'Setback was 58 mm.' },
      }),
    );
    expect(amended).toEqual({
      ...signed,
      amendments: [expect.objectContaining({ text: 'Setback was 58 mm.' })],
    });
  });

  it('cannot be changed behind the API either, once signed', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const { fitSessionId } = await signedSession(studio.owner, client);
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    try {
      for (const statement of [
        `UPDATE positions SET saddle_height_mm = 700 WHERE fit_session_id = $1`,
        `DELETE FROM measurements WHERE fit_session_id = $1`,
        `UPDATE fit_sessions SET signed_at = NULL, signed_by = NULL, content_hash = NULL WHERE id = $1`,
      ]) {
        await expect(admin.query(statement, [fitSessionId])).rejects.toMatchObject({
          constraint: 'fit_sessions_signed_is_final',
        });
      }
    } finally {
      await admin.end();
    }
  });

  it('waits for a part that is being written while it is signed', async () => {
    const client = await takeOnClient(studio.owner);
    await screen(studio.desk, client.clientId);
    const fitSessionId = await openMeasuredSession(studio.owner, client);
    const of = { params: { path: { fitSessionId } } };
    await dataOf(studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...of, body: baseline }));
    for (const stage of ['found', 'left'] as const) {
      const path = { fitSessionId, stage };
      await dataOf(
        studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
          params: { path },
          body: position,
        }),
      );
    }
    const body: Measurement = { kind: 'inseam', method: 'tape', repeats: [820], unit: 'mm' };
    const writing = Array.from({ length: 10 }, () =>
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', { ...of, body }),
    );
    const signing = dataOf(studio.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', of));
    const written = (await Promise.all(writing)).filter(({ response }) => response.status === 201).length;
    await signing;
    const { measurements } = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}', of));
    expect(measurements.filter(({ kind }) => kind === 'inseam')).toHaveLength(written);
  });
});

describe('a problem, as the client library throws it', () => {
  it('carries code, status and a sentence that names the field', async () => {
    const call = dataOf(studio.desk.POST('/v1/clients', { body: { givenName: '', familyName: 'B' } }));
    await expect(call).rejects.toBeInstanceOf(ProblemError);
    await expect(call).rejects.toMatchObject({
      code: 'request.invalid',
      status: 400,
      message: expect.stringContaining('givenName'),
    });
  });
});
