import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { film, motionCsv } from '../helpers/motion.js';
import {
  openMeasuredSession,
  screen,
  signedSession,
  takeOnClient,
  type TestClient,
} from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type Use = components['schemas']['UpdateBikeRequest']['uses'] extends (infer One)[] | undefined ? One : never;
type Import = components['schemas']['ImportMotionRequest'];

let api: TestApi;
let studio: TestStudio;
let fitSessionId: string;

const newRider = async (email: string): Promise<TestClient> => {
  const client = await takeOnClient(studio.owner, email);
  await screen(studio.owner, client.clientId);
  return client;
};

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  fitSessionId = await openMeasuredSession(studio.owner, await newRider('one@riders.example'));
});
afterAll(() => api.close());

describe('captured motion', () => {
  const importing = (body: Partial<Import> = {}, session = fitSessionId) =>
    studio.owner.POST('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
      params: { path: { fitSessionId: session } },
      body: { side: 'left', csv: motionCsv(), film, ...body },
    });

  it('is kept as angles over the turn with their deviations', async () => {
    const recording = await dataOf(importing());
    expect(recording).toMatchObject({ fitSessionId, side: 'left', turns: 5, heelPosture: 'toe-pointed' });
    expect(recording.cadenceRpm.value).toBeCloseTo(90, 1);
    expect(recording.straightest.kneeFlexionDeg.value).toBeCloseTo(35, 1);
    expect(recording.straightest.crankDeg).toBeCloseTo(180, 0);
    expect(recording.samples).toHaveLength(72);
    for (const { crankDeg, footPitchDeg, kneeFlexionDeg } of recording.samples) {
      const cosine = Math.cos((crankDeg * Math.PI) / 180);
      expect(footPitchDeg.value).toBeCloseTo(14 - 6 * cosine, 1);
      expect(kneeFlexionDeg.sd).toBeLessThan(0.05);
    }
    const path = { motionRecordingId: recording.id };
    const again = await dataOf(
      studio.owner.GET('/v1/motion-recordings/{motionRecordingId}', { params: { path } }),
    );
    expect(again).toEqual(recording);
    const { items } = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
        params: { path: { fitSessionId } },
      }),
    );
    expect(items.map(({ id }) => id)).toEqual([recording.id]);
  });

  it('is refused with the row at fault, and leaves nothing', async () => {
    const gap = motionCsv()
      .split('\n')
      .map((row, i) => (i === 40 ? row.replace(/,[^,]+$/, ',') : row))
      .join('\n');
    expect((await importing({ csv: gap })).error).toMatchObject({
      status: 422,
      errors: [{ field: 'rows.40.foot_pitch_deg' }],
    });
    expect((await importing({ csv: 'time_s\n0' })).error).toMatchObject({
      errors: [{ field: expect.stringMatching(/^columns\./) }],
    });
    const { items } = await dataOf(
      studio.owner.GET('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
        params: { path: { fitSessionId } },
      }),
    );
    expect(items).toHaveLength(1);
  });

  it('is not added to a signed session, nor seen by the front desk', async () => {
    const signed = await signedSession(studio.owner, await newRider('two@riders.example'));
    expect((await importing({}, signed.fitSessionId)).error).toMatchObject({
      status: 409,
      code: 'fit-sessions.signed',
    });
    const seen = await studio.desk.GET('/v1/fit-sessions/{fitSessionId}/motion-recordings', {
      params: { path: { fitSessionId } },
    });
    expect(seen.response.status).toBe(403);
  });
});

describe('positions of similar riders', () => {
  const similar = (session = fitSessionId, use?: Use) =>
    studio.owner.GET('/v1/fit-sessions/{fitSessionId}/similar-positions', {
      params: { path: { fitSessionId: session }, ...(use && { query: { use } }) },
    });

  it('need the rider’s segments', async () => {
    const client = await newRider('not-measured@riders.example');
    const { id } = await dataOf(studio.owner.POST('/v1/fit-sessions', { body: client }));
    expect((await similar(id)).error).toMatchObject({
      status: 409,
      code: 'similar-positions.not-measured',
      missing: ['thigh_length', 'shank_length', 'foot_lever'],
    });
  });

  it('are told of five riders and more, all together; of fewer only how many', async () => {
    // One is signed from above; the rider's own sessions never count.
    for (const name of ['three', 'four', 'five']) {
      await signedSession(studio.owner, await newRider(`${name}@riders.example`));
    }
    const four = await dataOf(similar());
    expect(four).toMatchObject({ riders: 4, figures: null, within: 1 });
    expect(four.segments).toEqual({ thighMm: 433, shankMm: 425, footLeverMm: 140 });
    expect(four.caution).toContain('not a rule');

    const own = await newRider('six@riders.example');
    const { fitSessionId: ownSigned } = await signedSession(studio.owner, own);
    const five = await dataOf(similar());
    expect(five.riders).toBe(5);
    expect(five.figures?.find(({ field }) => field === 'saddleHeightMm')).toMatchObject({
      ...{ unit: 'mm', riders: 5, lowerQuartile: 725, median: 725, upperQuartile: 725 },
    });
    expect(five.figures?.map(({ field }) => field)).not.toContain('barWidthMm');
    expect(JSON.stringify(five)).not.toContain(own.clientId);
    // Five others for the first rider; for one of the five there are four.
    expect(await dataOf(similar(ownSigned))).toMatchObject({ riders: 4, figures: null });
  });

  it('are of bikes of one use where that is asked for', async () => {
    const signed = await newRider('racing@riders.example');
    const path = { clientId: signed.clientId, bikeId: signed.bikeId };
    await dataOf(
      studio.owner.PATCH('/v1/clients/{clientId}/bikes/{bikeId}', {
        params: { path, header: { 'If-Match': '"1"' } },
        body: { uses: ['racing', 'training'] },
      }),
    );
    await signedSession(studio.owner, signed);
    const all = await dataOf(similar());
    expect(all).toMatchObject({ use: null, riders: 6 });
    expect(await dataOf(similar(fitSessionId, 'racing'))).toMatchObject({
      use: 'racing',
      riders: 1,
      figures: null,
    });
    expect(await dataOf(similar(fitSessionId, 'commuting'))).toMatchObject({ riders: 0, figures: null });
    const unknown = await similar(fitSessionId, 'parade' as Use);
    expect(unknown.error).toMatchObject({ status: 400, errors: [{ field: 'use' }] });
  });

  it('are of the same studio, and of similar legs', async () => {
    const far = await newRider('far@riders.example');
    const { id } = await dataOf(studio.owner.POST('/v1/fit-sessions', { body: far }));
    for (const [kind, mm] of [
      ['thigh_length', 510],
      ['shank_length', 510],
      ['foot_lever', 180],
    ] as const) {
      await dataOf(
        studio.owner.POST('/v1/fit-sessions/{fitSessionId}/measurements', {
          params: { path: { fitSessionId: id } },
          body: { kind, side: 'left', method: 'calliper', repeats: [mm], unit: 'mm' },
        }),
      );
    }
    expect(await dataOf(similar(id))).toMatchObject({ riders: 0, figures: null });

    const other = await openTestStudio(api);
    const client = await takeOnClient(other.owner);
    await screen(other.owner, client.clientId);
    const theirs = await openMeasuredSession(other.owner, client);
    const answer = await dataOf(
      other.owner.GET('/v1/fit-sessions/{fitSessionId}/similar-positions', {
        params: { path: { fitSessionId: theirs } },
      }),
    );
    expect(answer).toMatchObject({ riders: 0, figures: null });
  });
});
