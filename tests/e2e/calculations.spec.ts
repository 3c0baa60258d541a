import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, openClient, type StudioClient } from '@studio/api-client';
import { readFileSync } from 'node:fs';
import { openTestStudio, startTestApi, type TestApi } from '../helpers/studio.js';

interface Body {
  content: { 'application/json': { example: unknown } };
}
const document = JSON.parse(
  readFileSync(new URL('../../libs/api-client/openapi.json', import.meta.url), 'utf8'),
) as { paths: Record<string, { post?: { requestBody: Body; responses: { '200': Body } } }> };

const calculators = Object.entries(document.paths).flatMap(([path, { post }]) =>
  path.startsWith('/v1/calculations/') && post
    ? [
        [
          path,
          post.requestBody.content['application/json'].example,
          post.responses['200'].content['application/json'].example,
        ] as const,
      ]
    : [],
);

let api: TestApi;
let fitter: StudioClient;
let token: string;

beforeAll(async () => {
  api = await startTestApi();
  const { owner, studio } = await openTestStudio(api);
  fitter = owner;
  const { email, password } = studio.owner;
  const body = { studio: studio.handle, email, password };
  token = (await dataOf(openClient(api.url).POST('/v1/sign-ins', { body }))).accessToken;
});
afterAll(() => api.close());

const ask = async (path: string, body: unknown): Promise<{ status: number; answer: unknown }> => {
  const response = await fetch(`${api.url}${path}`, {
    method: 'POST',
    headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: response.status, answer: await response.json() };
};

/** Numbers to six digits, as the document shows them. */
const readable = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, one: unknown) =>
      typeof one === 'number' ? (Math.abs(one) < 1e-9 ? 0 : Number(one.toPrecision(6))) : one,
    ),
  );

describe('every calculator', () => {
  it('is in the document', () => {
    expect(calculators.length).toBeGreaterThanOrEqual(22);
  });

  it.each(calculators)('%s answers its worked example as documented', async (path, input, result) => {
    const { status, answer } = await ask(path, input);
    expect(status).toBe(200);
    expect(readable(answer)).toEqual(result);
  });

  it.each(calculators)('%s refuses an empty body and an unknown field, by name', async (path, input) => {
    const empty = await ask(path, {});
    // Most miss a field; where none is required, the library asks for one of several.
    expect([400, 422]).toContain(empty.status);
    expect((empty.answer as { errors: unknown[] }).errors.length).toBeGreaterThan(0);
    const unknown = await ask(path, { ...(input as object), favouriteColour: 'blue' });
    expect(unknown).toMatchObject({
      status: 400,
      answer: {
        code: 'request.invalid',
        errors: [{ field: 'favouriteColour', message: 'is not known' }],
      },
    });
  });
});

describe('a calculation that cannot be', () => {
  const leg = {
    thighMm: 434,
    shankMm: 425,
    footLeverMm: 140,
    ankleAboveSpindleMm: 120,
    crankLengthMm: 172.5,
  };
  const footPitch = { kind: 'constant', pitchDeg: 20 } as const;

  it('names the input and what is allowed', async () => {
    const body = { leg: { ...leg, thighMm: 4340 }, footPitch, hip: { xMm: -237.8, yMm: 777.9 } };
    const { error } = await fitter.POST('/v1/calculations/pedal-turns', { body });
    expect(error).toMatchObject({
      status: 422,
      code: 'fit-math.input.out-of-range',
      errors: [{ field: 'thighMm', message: 'allowed: from 200 to 700' }],
    });
  });

  it('names where the leg does not reach', async () => {
    const body = { leg, footPitch, hip: { xMm: -237.8, yMm: 1200 } };
    const { error } = await fitter.POST('/v1/calculations/pedal-turns', { body });
    expect(error).toMatchObject({
      status: 422,
      code: 'fit-math.leg.cannot-reach',
      errors: [{ field: 'hip' }],
    });
  });

  it('says of a foot pitch of no known form just that', async () => {
    const { status, answer } = await ask('/v1/calculations/pedal-turns', {
      leg,
      footPitch: { kind: 'wobbly' },
      hip: { xMm: -237.8, yMm: 777.9 },
    });
    expect({ status, answer }).toMatchObject({
      status: 400,
      answer: { errors: [{ field: 'footPitch', message: 'has none of the forms described' }] },
    });
  });

  it('reads what people type, and asks for a unit that is missing', async () => {
    const read = await dataOf(
      fitter.POST('/v1/calculations/quantities', { body: { text: '34,5 cm', quantity: 'length' } }),
    );
    expect(read).toEqual({ value: 345, unit: 'mm' });
    const { error } = await fitter.POST('/v1/calculations/quantities', {
      body: { text: '34.5', quantity: 'length' },
    });
    expect(error).toMatchObject({ status: 422, errors: [{ field: 'text' }] });
  });
});

describe('captured motion', () => {
  it('takes a minute at 240 samples a second', async () => {
    const rows = Array.from({ length: 14_400 }, (_, i) => {
      const turn = (2 * Math.PI * 1.5 * i) / 240;
      const angles = [73 + 37 * Math.cos(turn), 25 * Math.cos(turn), 95 + 8 * Math.cos(turn), 15];
      return [(i / 240).toFixed(6), ((turn * 180) / Math.PI) % 360, ...angles].join(',');
    });
    const names = 'time_s,crank_deg,knee_flexion_deg,thigh_elevation_deg,ankle_angle_deg,foot_pitch_deg';
    const film = { sideSeen: 'right', imageY: 'down', mmPerUnit: 1, markerLineWithSoleLevelDeg: 0 } as const;
    const motion = await dataOf(
      fitter.POST('/v1/calculations/captured-motion', { body: { csv: [names, ...rows].join('\n'), film } }),
    );
    expect(motion.turns).toBe(89);
    expect(motion.straightest.kneeFlexionDeg.value).toBeCloseTo(36, 1);
  });
});
