import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import pg from 'pg';
import {
  nothingWrong,
  openMeasuredSession,
  position,
  screen,
  takeOnClient,
  type TestClient,
} from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Pair = components['schemas']['PairPositionsRequest'];
type SaddleChange = components['schemas']['SaddleChangeInput'];
type Row = components['schemas']['SideBySideResponse'];

let api: TestApi;
let studio: TestStudio;
let client: TestClient;
let first: string;
let winterBikeId: string;

const onTheBike = { ...position, saddleSetbackAt80Mm: 200, hoodReachMm: 690, hoodDropMm: 55 };

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  ({ client, session: first } = await rider());
  winterBikeId = await winterBike();
});
afterAll(() => api.close());

async function rider(answers = nothingWrong): Promise<{ client: TestClient; session: string }> {
  const taken = await takeOnClient(studio.owner);
  await screen(studio.desk, taken.clientId, answers);
  const session = await openMeasuredSession(studio.owner, taken);
  await putPosition(session, onTheBike);
  return { client: taken, session };
}

const putPosition = (fitSessionId: string, body: components['schemas']['PositionRequest']) =>
  dataOf(
    studio.owner.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
      params: { path: { fitSessionId, stage: 'left' } },
      body,
    }),
  );

/** Steeper, with shorter cranks and the stem and bars on record. */
async function winterBike(): Promise<string> {
  const of = { path: { clientId: client.clientId } };
  const bike = await dataOf(
    studio.owner.POST('/v1/clients/{clientId}/bikes', {
      params: of,
      body: {
        ...{ name: 'Winter bike', crankLengthMm: 170, seatTubeAngleDeg: 74, uses: ['long_rides'] },
        frame: { stackMm: 560, reachMm: 385, headTubeAngleDeg: 73 },
      },
    }),
  );
  const parts = [
    ['stem', { stem: { lengthMm: 90, angleDeg: -6, clampHeightMm: 40 } }],
    ['spacers', { spacers: { heightMm: 20 } }],
    ['bars', { bars: { widthMm: 400, reachMm: 80, riseMm: 0, dropMm: 125 } }],
  ] as const;
  for (const [at, [partKind, body]] of parts.entries()) {
    const params = {
      path: { ...of.path, bikeId: bike.id, partKind },
      header: { 'If-Match': `"${bike.version + at}"` },
    };
    await dataOf(
      studio.owner.PUT('/v1/clients/{clientId}/bikes/{bikeId}/parts/{partKind}', { params, body }),
    );
  }
  return bike.id;
}

const pair = (body: Partial<Pair> = {}, clientId = client.clientId) =>
  studio.owner.POST('/v1/clients/{clientId}/paired-positions', {
    params: { path: { clientId } },
    body: {
      first: { fitSessionId: first, use: 'racing' },
      second: { bikeId: winterBikeId, shoeId: client.shoeId, use: 'long_rides' },
      because: 'Winter miles without pressure on the forefoot.',
      ...body,
    },
  });
const rowOf = (rows: readonly Row[], field: Row['field']): Row | undefined =>
  rows.find((row) => row.field === field);

const build = {
  frame: { seatTubeAxisAheadMm: 0, clampAlongTubeMm: { least: 600, greatest: 760 }, topCapMm: 5 },
  parts: {
    stems: [100, 110, 120].map((lengthMm) => ({
      id: `${lengthMm} mm`,
      lengthMm,
      angleDeg: -6,
      clampHeightMm: 40,
    })),
    spacersMm: [0, 10],
    seatposts: [{ id: 'set back', setbackMm: 20 }],
    saddle: {
      ...{ lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45 },
      ...{ widthPointBehindRailMiddleMm: 20, railTravelMm: 20 },
    },
  },
};

describe('a position carried over to a second bike', () => {
  it('stands beside the first, with what to set and which parts to change', async () => {
    const second = await openMeasuredSession(studio.owner, { ...client, bikeId: winterBikeId });
    await putPosition(second, { ...onTheBike, saddleHeightMm: 731 });
    const made = await dataOf(
      pair({
        second: { bikeId: winterBikeId, shoeId: client.shoeId, use: 'long_rides', fitSessionId: second },
        ...{ side: 'left' as const, cleatBackMm: 24 },
        otherwise: { gripsUpMm: 20 },
        build,
      }),
    );
    const { sideBySide, saddleChangeMm, partsToChange, transfer, cautions } = made.result;
    // 24 mm back lowers the saddle, cranks 2.5 mm shorter raise it.
    const { leg, change } = made.inputs as unknown as { leg: Omit<SaddleChange, 'change'> } & SaddleChange;
    const { data: alone } = await studio.owner.POST('/v1/calculations/saddle-changes', {
      body: { ...leg, change },
    });
    expect(alone?.value).toBeCloseTo(saddleChangeMm.value, 9);
    expect(alone?.sd).toBeCloseTo(saddleChangeMm.sd, 9);
    expect(saddleChangeMm.value).toBeLessThan(-8);

    const height = rowOf(sideBySide, 'saddleHeightMm');
    const sine = (deg: number): number => Math.sin((deg * Math.PI) / 180);
    expect(height).toMatchObject({ first: 740, now: 731 });
    expect(height?.second).toBeCloseTo(((740 + saddleChangeMm.value) * sine(73)) / sine(74), 6);
    expect(height?.toChange).toBeCloseTo((height?.second ?? NaN) - 731, 9);
    expect(rowOf(sideBySide, 'cleatBehindMth1LeftMm')).toMatchObject({
      first: 5,
      second: 29,
      now: 5,
      toChange: 24,
    });
    expect(rowOf(sideBySide, 'crankLengthMm')).toMatchObject({ second: 170 });
    expect(rowOf(sideBySide, 'hoodDropMm')).toMatchObject({ first: 55, second: 35, difference: -20 });
    // Other bars may be on it: where their centre is follows from the build.
    expect(rowOf(sideBySide, 'barReachMm')).toMatchObject({ first: 530, second: null, now: 530 });

    const [nearest] = (transfer as unknown as components['schemas']['Transfer']).builds;
    expect(nearest?.barId).toBe('on it');
    expect(partsToChange).toContainEqual({ part: 'seatpost', now: null, needed: 'set back' });
    expect(partsToChange.some(({ part }) => part === 'bars' || part === 'cranks')).toBe(false);
    if (nearest?.stemId !== 'on it') {
      expect(partsToChange).toContainEqual({ part: 'stem', now: 'on it', needed: nearest?.stemId });
    }
    expect(cautions.map(({ code }) => code)).toContain('check-before-riding');
    expect(made.footPitchFrom).toMatchObject([{ side: 'left', kind: 'measurement' }]);

    const path = { pairedPositionId: made.id };
    expect(
      await dataOf(studio.owner.GET('/v1/paired-positions/{pairedPositionId}', { params: { path } })),
    ).toEqual(made);
  });

  it('of two pairs of shoes asks nothing of the leg while nothing under the foot differs', async () => {
    const { id: shoeId } = await dataOf(
      studio.owner.POST('/v1/clients/{clientId}/shoes', {
        params: { path: { clientId: client.clientId } },
        body: {
          ...{ name: 'Winter boots', outerLengthMm: 296, holePattern: 'two_bolt', archChannel: false },
          ...{ slotFrontFromHeelMm: 214, slotRearFromHeelMm: 190 },
        },
      }),
    );
    const second = { bikeId: client.bikeId, shoeId, use: 'commuting' as const };
    const same = await dataOf(pair({ second }));
    expect(same.result).toMatchObject({
      saddleChangeMm: { value: 0, sd: 0 },
      partsToChange: [],
      transfer: null,
    });
    expect(same.footPitchFrom).toEqual([]);
    const differing = same.result.sideBySide.filter(({ difference }) => (difference ?? 0) !== 0);
    expect(differing).toEqual([]);

    const thicker = await dataOf(pair({ second, side: 'left', ankleHigherMm: 4 }));
    expect(thicker.result.saddleChangeMm.value).toBeGreaterThan(3);
    const listed = await dataOf(
      studio.owner.GET('/v1/clients/{clientId}/paired-positions', {
        params: { path: { clientId: client.clientId }, query: { limit: 2 } },
      }),
    );
    expect(listed.items).toHaveLength(2);
    expect(listed.next).not.toBeNull();
  });

  it('names what it cannot be worked out from', async () => {
    expect((await pair({ cleatBackMm: 24 })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'side' }],
    });
    expect((await pair({ side: 'right', cleatBackMm: 24 })).error).toMatchObject({
      status: 422,
      code: 'plans.not-measured-yet',
    });
    const { client: other, session: ofOther } = await rider();
    expect((await pair({ first: { fitSessionId: ofOther, use: 'racing' } })).error).toMatchObject({
      status: 422,
      errors: [{ field: 'first.fitSessionId' }],
    });
    const second = { bikeId: other.bikeId, shoeId: client.shoeId, use: 'racing' as const };
    expect((await pair({ second })).error).toMatchObject({ status: 422, errors: [{ field: 'bikeId' }] });
    const wrong = { ...build, frame: { ...build.frame, topCapMm: 'thin' } };
    expect((await pair({ side: 'left', build: wrong })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'build.frame.topCapMm' }],
    });
    const onOwn = { bikeId: client.bikeId, shoeId: client.shoeId, use: 'racing' as const };
    expect((await pair({ second: onOwn, build })).error).toMatchObject({
      status: 400,
      errors: [{ field: 'build', message: 'needs a second bike whose frame is on record' }],
    });
  });

  it('moves no cleat that the screening does not let be moved', async () => {
    const { client: barred, session } = await rider({ ...nothingWrong, shoe_cracked_or_recalled: 'yes' });
    const own = { bikeId: barred.bikeId, shoeId: barred.shoeId, use: 'long_rides' as const };
    const of = { first: { fitSessionId: session, use: 'racing' as const }, second: own };
    expect((await pair({ ...of, cleatBackMm: 12 }, barred.clientId)).error).toMatchObject({
      status: 409,
      code: 'screenings.not-permitted',
    });
    expect((await pair(of, barred.clientId)).response.status).toBe(201);
  });

  it('stays as it was worked out', async () => {
    await dataOf(pair({ side: 'left' }));
    const app = new pg.Client({ connectionString: api.database.apiUrl });
    await app.connect();
    try {
      await app.query(`SELECT set_config('app.studio_id', $1, false)`, [studio.studio.studioId]);
      for (const statement of [`UPDATE paired_positions SET result = '{}'`, 'DELETE FROM paired_positions'])
        await expect(app.query(statement)).rejects.toMatchObject({ code: '42501' });
    } finally {
      await app.end();
    }
  });
});
