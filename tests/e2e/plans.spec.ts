import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import { film, motionCsv } from '../helpers/motion.js';
import { nothingWrong, openMeasuredSession, position, screen, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type MakePlan = components['schemas']['MakePlanRequest'];

let api: TestApi;
let studio: TestStudio;
let fitSessionId: string;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  fitSessionId = await newSession();
});
afterAll(() => api.close());

async function newSession(answers = nothingWrong): Promise<string> {
  const client = await takeOnClient(studio.owner);
  await screen(studio.desk, client.clientId, answers);
  return openMeasuredSession(studio.owner, client);
}

const make = (body: MakePlan, session = fitSessionId) =>
  studio.owner.POST('/v1/fit-sessions/{fitSessionId}/plans', {
    params: { path: { fitSessionId: session } },
    body,
  });
const choose = (planId: string, option: string) =>
  studio.owner.POST('/v1/plans/{planId}/choice', {
    params: { path: { planId } },
    body: { option, because: 'Tried, and it was better.' },
  });
const putPosition = (
  stage: 'found' | 'left',
  body: components['schemas']['PositionRequest'],
  session = fitSessionId,
) =>
  dataOf(
    studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
      params: { path: { fitSessionId: session, stage } },
      body,
    }),
  );
const measure = (body: components['schemas']['MeasurementRequest'], session = fitSessionId) =>
  dataOf(
    studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
      params: { path: { fitSessionId: session } },
      body,
    }),
  );

const frame = {
  stackMm: 560,
  reachMm: 385,
  headTubeAngleDeg: 73,
  seatTubeAngleDeg: 73,
  seatTubeAxisAheadMm: 0,
  clampAlongTubeMm: { least: 600, greatest: 760 },
  topCapMm: 5,
};
const parts = {
  stems: [90, 100, 110].map((lengthMm) => ({
    id: `${lengthMm} mm`,
    lengthMm,
    angleDeg: -6,
    clampHeightMm: 40,
  })),
  spacersMm: [0, 10, 20, 30],
  bars: [{ id: 'short reach', reachMm: 80, riseMm: 0, dropMm: 125 }],
  seatposts: [{ id: 'set back', setbackMm: 20 }],
  saddle: {
    lengthMm: 270,
    tipTo80MmWidthMm: 140,
    railToTopMm: 45,
    widthPointBehindRailMiddleMm: 20,
    railTravelMm: 20,
  },
};
const onTheBike = {
  ...position,
  saddleSetbackAt80Mm: 200,
  hoodReachMm: 690,
  hoodDropMm: 55,
};

describe('a plan', () => {
  it('is worked out from the record and what is added, and says what it was worked out from', async () => {
    const plan = await dataOf(make({ kind: 'crank', side: 'left', added: { newCrankLengthMm: 165 } }));
    expect(plan).toMatchObject({
      kind: 'crank',
      added: { newCrankLengthMm: 165 },
      inputs: { newCrankLengthMm: 165, rider: { leg: { thighMm: 433, crankLengthMm: 172.5 } } },
      options: [{ id: 'as_computed', feasible: true, asks: ['riding'] }],
      choice: null,
      plannedBy: studio.owner.signedIn.id,
    });
    const input = plan.inputs as unknown as components['schemas']['CrankChangeInput'];
    const { data: computed } = await studio.owner.POST('/v1/calculations/crank-changes', { body: input });
    expect(plan.result).toEqual(computed);
    expect(
      await dataOf(studio.owner.GET('/v1/plans/{planId}', { params: { path: { planId: plan.id } } })),
    ).toEqual(plan);
  });

  it('names what is not measured yet, what is lacking of what is added, and what the record says already', async () => {
    expect((await make({ kind: 'saddle_height', side: 'left' })).error).toMatchObject({
      status: 422,
      code: 'plans.not-measured-yet',
      errors: [{ field: 'inseam' }, { field: 'trochanter_height' }, { field: 'stature' }],
    });
    expect((await make({ kind: 'leg_length' })).error?.errors).toHaveLength(6);
    expect((await make({ kind: 'transfer' })).error).toMatchObject({
      errors: expect.arrayContaining([expect.objectContaining({ field: 'position_found.hoodReachMm' })]),
    });
    expect((await make({ kind: 'crank', side: 'left' })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'added.newCrankLengthMm', message: 'is missing' }],
    });
    const over = { newCrankLengthMm: 165, rider: { minimumKneeFlexionDeg: 30 } };
    expect((await make({ kind: 'crank', side: 'left', added: over })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'added.rider.minimumKneeFlexionDeg' }],
    });
    expect((await make({ kind: 'crank', added: { newCrankLengthMm: 165 } })).error).toMatchObject({
      code: 'plans.side',
      errors: [{ field: 'side', message: 'is needed for this kind' }],
    });
    const far = await make({ kind: 'crank', side: 'left', added: { newCrankLengthMm: 300 } });
    expect(far.error).toMatchObject({ status: 422, errors: [{ field: 'newCrankLengthMm' }] });
  });

  it('is of every kind, and its options are what the result offers', async () => {
    const session = await newSession();
    for (const kind of [
      'thigh_length',
      'shank_length',
      'foot_lever',
      'ankle_above_spindle',
      'foot_pitch',
      'knee_flexion_straightest',
    ] as const) {
      const value = { thigh_length: 434, shank_length: 417, foot_lever: 140, ankle_above_spindle: 120 };
      const degrees = { foot_pitch: 18, knee_flexion_straightest: 34 };
      const reading = { ...value, ...degrees }[kind];
      const unit = kind in degrees ? 'deg' : 'mm';
      await measure({ kind, side: 'right', method: 'calliper', repeats: [reading], unit }, session);
    }
    await measure({ kind: 'inseam', method: 'tape', repeats: [825], unit: 'mm' }, session);
    await putPosition('found', onTheBike, session);
    const search = { frame, parts, toleranceMm: 5, listed: 2 };
    const riderOnRoad = { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 };
    const flat = {
      lengthM: 40000,
      gradient: 0,
      airDensityKgPerM3: 1.2,
      wind: { headwindMps: 0, crosswindMps: 0 },
    };
    const plans: readonly [MakePlan, string][] = [
      [{ kind: 'saddle_height', side: 'left', added: { riderNow: { filmedIn: 'plane' } } }, 'inseam-0.883'],
      [
        {
          kind: 'saddle_swap',
          added: {
            now: { lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45 },
            other: { lengthMm: 245, tipTo80MmWidthMm: 115, railToTopMm: 48 },
          },
        },
        'as_computed',
      ],
      [
        {
          kind: 'setback',
          side: 'left',
          added: {
            hip: { xMm: -237.8, yMm: 777.9 },
            landmark: 'tibial_tuberosity',
            landmarkAheadOfKneeJointMm: 30,
          },
        },
        'as_computed',
      ],
      [
        {
          kind: 'leg_length',
          added: {
            differenceMm: { value: 8, sd: 2 },
            carriedBy: 'shank',
            nature: 'structural',
            staggerMm: 6,
          },
        },
        'shim/between',
      ],
      [{ kind: 'transfer', added: search }, 'build_1'],
      [{ kind: 'second_bike', side: 'left', added: { ...search, change: { cleatBackMm: 24 } } }, 'build_2'],
      [
        {
          kind: 'air',
          added: { rider: riderOnRoad, dragAreaSdM2: 0.02, loweredMm: 14, course: [flat], powerW: 250 },
        },
        'as_computed',
      ],
    ];
    for (const [body, option] of plans) {
      const plan = await dataOf(make(body, session));
      expect(plan.options.map(({ id }) => id)).toContain(option);
      expect(await dataOf(choose(plan.id, option))).toMatchObject({ choice: { option } });
    }
    const all = { params: { path: { fitSessionId: session }, query: { limit: 4 } } };
    const first = await dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/plans', all));
    expect(first.items).toHaveLength(4);
    expect(first.next).not.toBeNull();
  });

  it('takes the foot pitch from captured motion where there is some, and keeps where it is from', async () => {
    const session = await newSession();
    const before = await dataOf(make({ kind: 'cleat', side: 'left' }, session));
    const measurement = expect.objectContaining({ side: 'left', kind: 'measurement' });
    expect(before.footPitchFrom).toEqual([measurement]);
    const recording = await dataOf(
      studio.owner.POST('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
        params: { path: { fitSessionId: session } },
        body: { side: 'left', csv: motionCsv(), film },
      }),
    );
    const after = await dataOf(make({ kind: 'cleat', side: 'left' }, session));
    expect(after.footPitchFrom).toEqual([{ side: 'left', kind: 'motion_recording', id: recording.id }]);
    const { rider } = after.inputs as unknown as components['schemas']['CleatPlanInput'];
    expect(rider.footPitch).toMatchObject({ kind: 'series' });
    const saddleOf = ({ result }: typeof after) =>
      (result as unknown as components['schemas']['CleatPlan']).options.find(
        ({ way }) => way === 'rear_plate_24',
      )?.saddleHeightChangeMm.value;
    // Held at 20° throughout it comes to −15.2 mm; in the motion the heel is lower where the leg is longest.
    expect(saddleOf(before)).toBeCloseTo(-15.2, 0);
    expect(saddleOf(after)).not.toBeCloseTo(saddleOf(before) ?? Number.NaN, 1);
    const again = await dataOf(
      studio.owner.GET('/v1/plans/{planId}', { params: { path: { planId: before.id } } }),
    );
    expect(again).toEqual(before);
    const crank = await dataOf(
      make({ kind: 'crank', side: 'left', added: { newCrankLengthMm: 165 } }, session),
    );
    expect(crank.footPitchFrom).toEqual(after.footPitchFrom);
  });

  it('is chosen from once, and only what the screening permits', async () => {
    const numb = await newSession({ ...nothingWrong, foot_numb_off_bike: 'yes' });
    const cleat = await dataOf(make({ kind: 'cleat', side: 'left' }, numb));
    expect((await choose(cleat.id, 'slot_extension')).error).toMatchObject({
      status: 409,
      code: 'screenings.not-permitted',
      rules: ['foot-numb-off-the-bike'],
    });
    expect((await choose(cleat.id, 'arch_base_three_bolt')).error).toMatchObject({
      code: 'plans.option-not-offered',
      offered: expect.arrayContaining(['rear_plate_24']),
    });
    await dataOf(choose(cleat.id, 'rear_plate_24'));
    expect((await choose(cleat.id, 'rear_plate_12')).error).toMatchObject({
      status: 409,
      code: 'plans.already-chosen',
    });
  });

  it('cannot be rewritten in the database either', async () => {
    const plan = await dataOf(make({ kind: 'cleat', side: 'left' }));
    await dataOf(choose(plan.id, 'rear_plate_24'));
    const admin = new pg.Client({ connectionString: api.database.adminUrl });
    await admin.connect();
    try {
      for (const change of [
        `result = '{}'`,
        `formula_version = '9'`,
        `inputs = '{}'`,
        `chosen_option = 'within_slots'`,
      ]) {
        await expect(
          admin.query(`UPDATE plans SET ${change} WHERE id = $1`, [plan.id]),
        ).rejects.toMatchObject({
          constraint: 'plans_stay_as_made',
        });
      }
      const { rows } = await admin.query(
        `SELECT DISTINCT privilege_type AS may FROM information_schema.table_privileges
          WHERE table_name = 'plans' AND grantee = 'fitting_api' ORDER BY 1`,
      );
      expect(rows).toEqual([{ may: 'INSERT' }, { may: 'SELECT' }]);
    } finally {
      await admin.end();
    }
  });

  it('stands, as predicted, beside what was left', async () => {
    const session = await newSession();
    const of = { params: { path: { fitSessionId: session } } };
    const plan = await dataOf(make({ kind: 'cleat', side: 'left' }, session));
    const predictions = () => dataOf(studio.owner.GET('/v1/fit-sessions/{fitSessionId}/predictions', of));
    expect(await predictions()).toEqual([]);
    await dataOf(choose(plan.id, 'rear_plate_24'));
    expect(await predictions()).toMatchObject([
      { field: 'saddleHeightMm', found: null, predicted: null, left: null, withinError: null },
      { field: 'cleatBehindMth1LeftMm', predicted: 32, left: null, withinError: null },
    ]);
    await putPosition('found', onTheBike, session);
    await putPosition('left', { ...onTheBike, saddleHeightMm: 700, cleatBehindMth1LeftMm: 31 }, session);
    const [saddle, cleat] = await predictions();
    const { options } = plan.result as unknown as components['schemas']['CleatPlan'];
    const change = options.find(({ way }) => way === 'rear_plate_24')?.saddleHeightChangeMm;
    expect(saddle).toMatchObject({
      planId: plan.id,
      kind: 'cleat',
      side: 'left',
      found: 740,
      left: 700,
      withinError: false,
    });
    expect(saddle?.predicted).toBeCloseTo(740 + (change?.value ?? Number.NaN), 9);
    expect(cleat).toMatchObject({ predicted: 32, left: 31, difference: -1, withinError: true });
  });
});
