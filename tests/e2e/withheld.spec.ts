import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type StudioClient } from '@studio/api-client';
import pg from 'pg';
import { eventually } from '../helpers/mail.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { clientOf, giveMark, signInAs } from '../helpers/staff.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let fitter: StudioClient;
let clinician: StudioClient;
let clinicianId: string;

const addressOf = (name: string): string => `${name}@${here.studio.handle}.example`;

beforeAll(async () => {
  api = await startTestApi();
  here = await openTestStudio(api);
  await signInAs(here, { email: addressOf('fitter'), roles: ['fitter'] });
  fitter = await clientOf(here, addressOf('fitter'));
  clinicianId = (await signInAs(here, { email: addressOf('clinician'), roles: ['fitter'] })).id;
});
afterAll(() => api.close());

const forStaff = (staffId: string) => ({ params: { path: { staffId } } });
const forClient = (clientId: string) => ({ params: { path: { clientId } } });
/** After maximal effort the index falls below 0.66. */
const effort = { restIndex: 1.02, afterIndex: 0.6 };

const auditOf = async (action: string) =>
  (await dataOf(here.owner.GET('/v1/audit-entries', { params: { query: { action, limit: 200 } } }))).items;

describe('the mark of a licensed clinician', () => {
  it('is given by an owner, to a fitter, with a register entry looked up by today', async () => {
    const mark = { registration: 'Register of physiotherapists, 00000', checkedOn: '2026-01-02' };
    const of = forStaff(clinicianId);
    const { error } = await fitter.POST('/v1/staff/{staffId}/clinician-marks', { ...of, body: mark });
    expect(error).toMatchObject({ status: 403, code: 'access.not-allowed' });
    const { items: people } = await dataOf(here.owner.GET('/v1/staff'));
    const desk = forStaff(people.find(({ roles }) => roles.includes('front_desk'))?.id ?? '');
    const toDesk = await here.owner.POST('/v1/staff/{staffId}/clinician-marks', { ...desk, body: mark });
    expect(toDesk.error).toMatchObject({ status: 409, code: 'staff.not-a-fitter' });
    const tomorrow = { ...mark, checkedOn: '2098-01-02' };
    const early = await here.owner.POST('/v1/staff/{staffId}/clinician-marks', { ...of, body: tomorrow });
    expect(early.error).toMatchObject({ status: 400, errors: [{ field: 'checkedOn' }] });

    await giveMark(here, clinicianId);
    const again = { ...mark, registration: 'Register of physiotherapists, 11111' };
    await dataOf(here.owner.POST('/v1/staff/{staffId}/clinician-marks', { ...of, body: again }));
    const marks = await dataOf(here.owner.GET('/v1/staff/{staffId}/clinician-marks', of));
    expect(marks).toMatchObject([
      { ...again, staffId: clinicianId, givenBy: 'Owner', endedAt: null },
      { ...mark, endedAt: expect.any(String) },
    ]);
    expect(await auditOf('clinician-marks.give')).toMatchObject([
      { recordId: clinicianId, fields: ['registration', 'checkedOn'], afterHash: expect.any(String) },
      { recordId: clinicianId },
    ]);
  });

  it('lets record scores: what follows is shown to every fitter, the values to clinicians', async () => {
    clinician = await clientOf(here, addressOf('clinician'));
    const { clientId } = await takeOnClient(here.owner, 'scored@riders.example');
    const of = forClient(clientId);
    const body = { exerciseIndex: effort };
    const refused = await fitter.POST('/v1/clients/{clientId}/clinician-scores', { ...of, body });
    expect(refused.error).toMatchObject({ status: 403, code: 'access.not-allowed' });
    const unscreened = await clinician.POST('/v1/clients/{clientId}/clinician-scores', { ...of, body });
    expect(unscreened.error).toMatchObject({ status: 409, code: 'screenings.not-permitted' });

    await screen(here.owner, clientId);
    const score = await dataOf(clinician.POST('/v1/clients/{clientId}/clinician-scores', { ...of, body }));
    expect(score).toMatchObject({
      ...{ kind: 'exercise_index', found: effort, clinicianName: addressOf('clinician') },
      registration: 'Register of physiotherapists, 11111',
      result: { below066: true, fallsByMoreThanTwentyPercent: true, legsDifferByMoreThan018: null },
    });

    const scores = '/v1/clients/{clientId}/clinician-scores';
    expect(await dataOf(clinician.GET(scores, of))).toEqual([score]);
    const { found: _, result: __, ...withoutValues } = score;
    expect(await dataOf(fitter.GET(scores, of))).toEqual([withoutValues]);
    expect(await dataOf(here.owner.GET(scores, of))).toEqual([withoutValues]);
    expect((await here.desk.GET(scores, of)).response.status).toBe(403);

    const [screening] = await dataOf(fitter.GET('/v1/clients/{clientId}/screenings', of));
    expect(screening).toMatchObject({
      id: score.screeningId,
      findings: expect.arrayContaining([
        expect.objectContaining({ ruleId: 'clinician-exercise-index', result: 'raised' }),
      ]),
    });
    expect(screening?.permission.barred).toEqual(expect.arrayContaining(['hard_effort']));
    const [referral] = await dataOf(fitter.GET('/v1/clients/{clientId}/referrals', of));
    const { text } = await dataOf(
      fitter.GET('/v1/referrals/{referralId}/letter', {
        params: { path: { referralId: referral?.id ?? '' } },
      }),
    );
    expect(text).toContain('Register of physiotherapists, 11111');
    expect(text).not.toContain('and nothing else');
  });

  it.each([
    [{ twoLevelDvt: dvt(12) }, { kind: 'two_level_dvt', result: { score: 0, level: 'unlikely' } }],
    [
      {
        ankleBrachialIndex: {
          ...{ armRightMmHg: 120, armLeftMmHg: 118, dorsalisPedisMmHg: 96, posteriorTibialMmHg: 100 },
          symptomsOnEffort: false,
        },
      },
      { kind: 'ankle_brachial_index', result: { hundredths: 83, band: 'abnormal' } },
    ],
    [
      {
        claudicationQuestions: {
          ...{
            onWalking: true,
            startsStandingOrSitting: false,
            uphillOrHurrying: true,
            atOrdinaryPace: false,
          },
          ...{ onStandingStill: 'gone_within_ten_minutes' as const, sites: ['calf' as const] },
        },
      },
      { kind: 'claudication_questions', result: { pattern: 'definite', grade: 1 } },
    ],
    [
      { neuropathyQuestionnaire: { yes: Array.from({ length: 15 }, () => true), hasDiabetes: false } },
      { kind: 'neuropathy_questionnaire', result: { score: 11 } },
    ],
    [
      {
        kneeInjury: {
          ...{ ageYears: 55, onlyPatellaTender: false, fibularHeadTender: false, bendsToRightAngle: true },
          ...{ fourStepsAtOnce: true, fourStepsNow: true },
        },
      },
      { kind: 'knee_injury', result: { met: true } },
    ],
  ])('works out %j', async (body, expected) => {
    const { clientId } = await takeOnClient(here.owner, 'examined@riders.example');
    await screen(here.owner, clientId);
    const of = forClient(clientId);
    const score = dataOf(clinician.POST('/v1/clients/{clientId}/clinician-scores', { ...of, body }));
    expect(await score).toMatchObject(expected);
  });

  it('takes the values of one score, and none that cannot be', async () => {
    const { clientId } = await takeOnClient(here.owner, 'unscored@riders.example');
    await screen(here.owner, clientId);
    const of = forClient(clientId);
    const record = async (body: object) =>
      (await clinician.POST('/v1/clients/{clientId}/clinician-scores', { ...of, body })).error;
    expect(await record({})).toMatchObject({ status: 400, errors: [{ field: 'body' }] });
    expect(await record({ exerciseIndex: effort, twoLevelDvt: dvt(0) })).toMatchObject({ status: 400 });
    expect(await record({ exerciseIndex: { ...effort, restIndex: 1.025 } })).toMatchObject({
      ...{ status: 422, code: 'clinician-scores.impossible', errors: [{ field: 'restIndex' }] },
    });
    expect(await dataOf(clinician.GET('/v1/clients/{clientId}/clinician-scores', of))).toEqual([]);
  });

  it('ends at once for what is recorded', async () => {
    const of = forStaff(clinicianId);
    await dataOf(here.owner.DELETE('/v1/staff/{staffId}/clinician-marks', of));
    const again = await here.owner.DELETE('/v1/staff/{staffId}/clinician-marks', of);
    expect(again.error).toMatchObject({ status: 409, code: 'staff.no-clinician-mark' });
    const { clientId } = await takeOnClient(here.owner, 'late@riders.example');
    const late = { ...forClient(clientId), body: { exerciseIndex: effort } };
    const { error } = await clinician.POST('/v1/clients/{clientId}/clinician-scores', late);
    expect(error).toMatchObject({ status: 403, code: 'access.not-allowed' });
    expect(await auditOf('clinician-marks.end')).toHaveLength(1);
  });
});

function dvt(calfThickerMm: number) {
  return {
    ...{ activeCancer: false, paralysisOrRecentLegCast: false, inBedForThreeDays: false },
    ...{ weeksSinceMajorSurgery: null, tenderAlongDeepVeins: false, entireLegSwollen: false, calfThickerMm },
    ...{ pittingOedemaOfThatLegOnly: false, collateralSuperficialVeins: false, previousDvt: false },
    otherExplanationAsLikely: false,
  };
}

describe('a restricted record', () => {
  let clientId: string;
  let screeningId: string;
  let fitSessionId: string;
  const withheld = { status: 403, code: 'access.record-restricted' };
  const why = { ground: 'legal_claim' as const, reason: 'The insurer asks what was changed on the bike.' };

  beforeAll(async () => {
    const client = await takeOnClient(here.owner, 'restricted@riders.example');
    clientId = client.clientId;
    screeningId = (await screen(here.owner, clientId)).id ?? '';
    fitSessionId = (await signedSession(here.owner, client)).fitSessionId;
    const { error } = await here.owner.POST('/v1/clients/{clientId}/record-openings', {
      ...forClient(clientId),
      body: why,
    });
    expect(error).toMatchObject({ status: 409, code: 'record-openings.not-restricted' });
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    await admin.query('UPDATE clients SET restricted_at = app_now() WHERE id = $1', [clientId]);
    await admin.end();
  });

  /** The same record by several ways, and one that tries to slip past by another client's id. */
  const ways = async (of: StudioClient) => {
    const someone = '0199d000-0000-7000-8000-00000000ffff';
    const query = { clientId: someone } as never;
    const answers = [
      await of.GET('/v1/clients/{clientId}/screenings', forClient(clientId)),
      await of.GET('/v1/screenings/{screeningId}', { params: { path: { screeningId } } }),
      await of.GET('/v1/screenings/{screeningId}', { params: { path: { screeningId }, query } }),
      await of.GET('/v1/fit-sessions', { params: { query: { clientId } } }),
      await of.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } }),
      await of.GET('/v1/fit-sessions/{fitSessionId}/plans', { params: { path: { fitSessionId } } }),
    ];
    return answers.map(({ response, error }) => [
      response.status,
      (error as { code?: string } | undefined)?.code,
    ]);
  };

  it('is withheld from everybody, by whatever way', async () => {
    for (const reader of [here.owner, fitter]) {
      for (const answer of await ways(reader)) expect(answer).toEqual([withheld.status, withheld.code]);
    }
    // Who it is, and whether the client may be booked, is no health data.
    await dataOf(here.desk.GET('/v1/clients/{clientId}', forClient(clientId)));
  });

  it('is read for an hour by who says why, and by nobody else; the owners are told', async () => {
    const { error } = await here.desk.POST('/v1/clients/{clientId}/record-openings', {
      ...forClient(clientId),
      body: why,
    });
    expect(error).toMatchObject({ status: 403, code: 'access.not-allowed' });
    const opening = await dataOf(
      fitter.POST('/v1/clients/{clientId}/record-openings', { ...forClient(clientId), body: why }),
    );
    const { openedAt, expiresAt } = opening;
    expect(new Date(expiresAt).getTime() - new Date(openedAt).getTime()).toBe(3_600_000);

    const read = await ways(fitter);
    // The one with another client's id in its query is refused as what it is: a query nobody reads.
    expect(read.filter(([status]) => status !== 200).length).toBeLessThanOrEqual(1);
    expect((await ways(here.owner)).every(([status]) => status === 403)).toBe(true);

    const listed = await dataOf(here.owner.GET('/v1/record-openings', { params: { query: { clientId } } }));
    expect(listed).toEqual({ items: [opening], next: null });
    const query = { kind: 'record_opened' as const };
    expect((await dataOf(here.owner.GET('/v1/tasks', { params: { query } }))).items).toMatchObject([
      { subjectId: opening.id, subjectType: 'record_opening', role: 'owner' },
    ]);
    const template = 'record_opened' as const;
    const mails = await dataOf(here.owner.GET('/v1/messages', { params: { query: { template } } }));
    expect(mails.items).toHaveLength(1);

    expect(await auditOf('record-openings.open')).toMatchObject([
      { recordId: clientId, fields: ['legal_claim'] },
    ]);
    const reads = await eventually('reads are written down', 5, async () => {
      const entries = await auditOf('opened-read.');
      return entries.length < 5 ? undefined : entries;
    });
    expect(reads.map(({ action }) => action)).toContain('opened-read.getScreening');
  });

  it('is withheld again when the hour is over', async () => {
    await dataOf(here.owner.POST('/v1/test-clock/advance', { body: { seconds: 3_601 } }));
    expect((await ways(fitter)).every(([status]) => status === 403)).toBe(true);
  });
});
