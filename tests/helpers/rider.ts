import { dataOf, type components, type StudioClient } from '@studio/api-client';
import { healthy } from '../../seed/src/story/healthy.js';

type Schemas = components['schemas'];

/** An intake that finds nothing. */
export const nothingWrong = {
  ...healthy,
  age_years: 38,
  active_days_per_week: 4,
  active_minutes_per_day: 60,
  active_months: 24,
};

/** A follow-up that finds nothing. */
export const nothingNew = { anything_new: 'no', complaint_sites: [] };

/** A follow-up to which something is new: these answers, and nothing else. */
export const onlyNew = (answers: Record<string, unknown>): Record<string, unknown> => ({
  anything_new: 'yes',
  new_about: ['something_else'],
  ...healthy,
  ...answers,
});

export const baseline: Schemas['BaselineRequest'] = {
  pain: 6,
  comfort: 40,
  numbness: true,
  power20MinW: 240,
};

export const position = {
  saddleHeightMm: 740,
  saddleSetbackMm: 60,
  barDropMm: 60,
  barReachMm: 530,
  cleatBehindMth1LeftMm: 5,
  cleatBehindMth1RightMm: 5,
} satisfies Schemas['PositionRequest'];

const readings: readonly Schemas['MeasurementRequest'][] = [
  { kind: 'thigh_length', side: 'left', method: 'calliper', repeats: [43.4, 43.2], unit: 'cm' },
  { kind: 'shank_length', side: 'left', method: 'calliper', repeats: [425], unit: 'mm' },
  { kind: 'foot_lever', side: 'left', method: 'calliper', repeats: [140], unit: 'mm' },
  { kind: 'ankle_above_spindle', side: 'left', method: 'tape', repeats: [120], unit: 'mm' },
  { kind: 'foot_pitch', side: 'left', method: 'video', repeats: [20], unit: 'deg' },
  { kind: 'knee_flexion_straightest', side: 'left', method: 'video', repeats: [35], unit: 'deg' },
  { kind: 'mth1_from_heel', side: 'left', method: 'calliper', repeats: [205], unit: 'mm' },
  { kind: 'cleat_from_heel', side: 'left', method: 'calliper', repeats: [200], unit: 'mm' },
];

export interface TestClient {
  readonly clientId: string;
  readonly bikeId: string;
  readonly shoeId: string;
}

/** A client with all consents, a bike and a pair of shoes. */
export async function takeOnClient(
  studio: StudioClient,
  email = 'rider@riders.example',
): Promise<TestClient> {
  const { id: clientId } = await dataOf(
    studio.POST('/v1/clients', { body: { givenName: 'Robin', familyName: 'Rider', email } }),
  );
  const of = { params: { path: { clientId } } };
  for (const kind of ['data', 'health_data', 'contact'] as const) {
    await dataOf(studio.POST('/v1/clients/{clientId}/consents', { ...of, body: { kind, textVersion: '1' } }));
  }
  const bike = await dataOf(
    studio.POST('/v1/clients/{clientId}/bikes', {
      ...of,
      body: { name: 'Road bike', crankLengthMm: 172.5, seatTubeAngleDeg: 73 },
    }),
  );
  const shoe = await dataOf(
    studio.POST('/v1/clients/{clientId}/shoes', {
      ...of,
      body: {
        name: 'Shoes',
        outerLengthMm: 290,
        holePattern: 'three_bolt',
        slotFrontFromHeelMm: 212,
        slotRearFromHeelMm: 197,
        archChannel: false,
      },
    }),
  );
  return { clientId, bikeId: bike.id, shoeId: shoe.id };
}

/** Hand in an intake; without answers given, one that finds nothing. */
export async function screen(
  studio: StudioClient,
  clientId: string,
  answers: Record<string, unknown> = nothingWrong,
): Promise<Schemas['DeskNoticeResponse']> {
  return dataOf(
    studio.POST('/v1/clients/{clientId}/screenings', {
      params: { path: { clientId } },
      body: { questionSetId: 'rider-intake', questionSetVersion: '2', answers },
    }),
  );
}

/** An open session in which everything a left cleat plan needs is measured. */
export async function openMeasuredSession(studio: StudioClient, client: TestClient): Promise<string> {
  const { id: fitSessionId } = await dataOf(studio.POST('/v1/fit-sessions', { body: client }));
  const of = { params: { path: { fitSessionId } } };
  for (const body of readings)
    await dataOf(studio.POST('/v1/fit-sessions/{fitSessionId}/measurements', { ...of, body }));
  return fitSessionId;
}

/** A signed session with a chosen plan for the left foot. */
export async function signedSession(
  studio: StudioClient,
  client: TestClient,
  before: (fitSessionId: string) => Promise<void> = () => Promise.resolve(),
): Promise<{ fitSessionId: string; cleatPlanId: string }> {
  const fitSessionId = await openMeasuredSession(studio, client);
  await before(fitSessionId);
  const of = { params: { path: { fitSessionId } } };
  await dataOf(studio.PUT('/v1/fit-sessions/{fitSessionId}/baseline', { ...of, body: baseline }));
  const plan = await dataOf(
    studio.POST('/v1/fit-sessions/{fitSessionId}/cleat-plans', { ...of, body: { side: 'left' } }),
  );
  await dataOf(
    studio.POST('/v1/cleat-plans/{cleatPlanId}/choice', {
      params: { path: { cleatPlanId: plan.id } },
      body: { way: 'rear_plate_24', because: 'Most of the effect.' },
    }),
  );
  for (const stage of ['found', 'left'] as const) {
    const saddleHeightMm = stage === 'left' ? 725 : 740;
    await dataOf(
      studio.PUT('/v1/fit-sessions/{fitSessionId}/positions/{stage}', {
        params: { path: { fitSessionId, stage } },
        body: { ...position, saddleHeightMm },
      }),
    );
  }
  await dataOf(studio.POST('/v1/fit-sessions/{fitSessionId}/sign-off', of));
  return { fitSessionId, cleatPlanId: plan.id };
}
