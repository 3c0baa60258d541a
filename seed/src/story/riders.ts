import type { components } from '@studio/api-client';
import { healthy } from './healthy.js';

type Schemas = components['schemas'];

/** An invented rider: who, on what, how measured, what was decided, and what is answered later. */
export interface Rider {
  readonly client: Schemas['CreateClientRequest'] & { readonly email: string };
  readonly intake: Record<string, unknown>;
  /** How a clinician cleared what the intake found; absent when it found nothing that bars riding. */
  readonly clearance?: Schemas['ClearRequest'];
  readonly bike: Schemas['CreateBikeRequest'];
  readonly shoe: Schemas['CreateShoeRequest'];
  readonly baseline: Schemas['BaselineRequest'];
  /** The same on both sides. */
  readonly measured: readonly Pick<Schemas['MeasurementRequest'], 'kind' | 'method' | 'repeats' | 'unit'>[];
  readonly found: Schemas['PositionRequest'] & { readonly saddleHeightMm: number };
  readonly decision: Schemas['ChooseOptionRequest'];
  /** Answers by week; a week that is absent stays unanswered. */
  readonly answers: Partial<Record<2 | 6, Schemas['FollowUpAnswersRequest']>>;
}

export const active = { active_days_per_week: 4, active_minutes_per_day: 75, active_months: 36 } as const;
export const nothingNew = { anything_new: 'no', complaint_sites: [] } as const;

const measured = (values: Record<string, readonly number[]>): Rider['measured'] => [
  { kind: 'thigh_length', method: 'calliper', repeats: [...(values['thigh'] ?? [])], unit: 'cm' },
  { kind: 'shank_length', method: 'calliper', repeats: [...(values['shank'] ?? [])], unit: 'cm' },
  { kind: 'foot_lever', method: 'calliper', repeats: [...(values['lever'] ?? [])], unit: 'mm' },
  { kind: 'ankle_above_spindle', method: 'tape', repeats: [...(values['ankle'] ?? [])], unit: 'mm' },
  { kind: 'foot_pitch', method: 'video', repeats: [...(values['pitch'] ?? [])], unit: 'deg' },
  { kind: 'knee_flexion_straightest', method: 'video', repeats: [...(values['knee'] ?? [])], unit: 'deg' },
  { kind: 'mth1_from_heel', method: 'calliper', repeats: [...(values['mth1'] ?? [])], unit: 'mm' },
  { kind: 'cleat_from_heel', method: 'calliper', repeats: [...(values['cleat'] ?? [])], unit: 'mm' },
];

export const riders: readonly Rider[] = [
  {
    client: {
      givenName: 'Marta',
      familyName: 'Ferreira',
      email: 'marta@riders.example',
      bornOn: '1987-05-14',
    },
    intake: { ...healthy, ...active, age_years: 38, foot_numb_on_bike: 'yes' },
    bike: { name: 'Road bike', crankLengthMm: 170, seatTubeAngleDeg: 73.5 },
    shoe: {
      name: 'Stiff road shoes',
      outerLengthMm: 278,
      holePattern: 'three_bolt',
      slotFrontFromHeelMm: 202,
      slotRearFromHeelMm: 187,
      archChannel: false,
    },
    baseline: { pain: 6, comfort: 42, numbness: true, power20MinW: 214 },
    measured: measured({
      thigh: [40.1, 40.5, 40.3],
      shank: [40.6, 40.2],
      lever: [133, 131],
      ankle: [117, 118],
      pitch: [24, 27, 25],
      knee: [33, 35],
      mth1: [194, 195],
      cleat: [191, 191],
    }),
    found: {
      saddleHeightMm: 712,
      saddleSetbackMm: 58,
      barDropMm: 62,
      barReachMm: 512,
      cleatBehindMth1LeftMm: 3.5,
      cleatBehindMth1RightMm: 3.5,
    },
    decision: {
      way: 'rear_plate_24',
      because: 'Points the toe, numb forefoot: most of the effect without cutting the sole.',
    },
    answers: {
      2: { pain: 3, comfort: 66, numbness: false, power20MinW: null, answers: nothingNew },
      6: { pain: 1, comfort: 81, numbness: false, power20MinW: 217, answers: nothingNew },
    },
  },
  {
    client: { givenName: 'Jonas', familyName: 'Brandt', email: 'jonas@riders.example', bornOn: '1979-11-02' },
    intake: {
      ...healthy,
      ...active,
      age_years: 46,
      saddle_numb: 'yes',
      saddle_numb_new_or_worse: 'no',
      saddle_numb_day_after: 'yes',
      saddle_numb_despite_changes: 'no',
    },
    clearance: {
      reason: 'Seen the same day; examined without finding; may ride with a changed saddle.',
      clearedByClinician: 'Dr A. Holm, registration as told by the client',
    },
    bike: { name: 'Long-distance bike', crankLengthMm: 172.5, seatTubeAngleDeg: 73 },
    shoe: {
      name: 'Touring shoes',
      outerLengthMm: 296,
      holePattern: 'four_bolt',
      slotFrontFromHeelMm: 216,
      slotRearFromHeelMm: 200,
      archChannel: false,
    },
    baseline: { pain: 4, comfort: 55, numbness: false, power20MinW: 251 },
    measured: measured({
      thigh: [43.2, 43.6],
      shank: [42.3, 42.7],
      lever: [141, 139],
      ankle: [121, 120],
      pitch: [-7, -9, -8],
      knee: [35, 36],
      mth1: [207, 208],
      cleat: [203, 203],
    }),
    found: {
      saddleHeightMm: 758,
      saddleSetbackMm: 71,
      barDropMm: 48,
      barReachMm: 536,
      cleatBehindMth1LeftMm: 4.5,
      cleatBehindMth1RightMm: 4.5,
    },
    decision: {
      way: 'arch_base_four_bolt',
      because: 'Drops the heel, rides long and steady; wants true midfoot.',
    },
    answers: {
      2: { pain: 2, comfort: 74, numbness: false, power20MinW: 249, answers: nothingNew },
      6: {
        pain: 2,
        comfort: 70,
        numbness: false,
        power20MinW: 248,
        answers: { anything_new: 'yes', new_about: ['legs'], ...healthy, leg_swelling_one_sided_new: 'yes' },
      },
    },
  },
  {
    client: { givenName: 'Aino', familyName: 'Salmi', email: 'aino@riders.example', bornOn: '1993-08-23' },
    intake: { ...healthy, ...active, age_years: 32 },
    bike: { name: 'Time-trial bike', crankLengthMm: 165, seatTubeAngleDeg: 78 },
    shoe: {
      name: 'Triathlon shoes',
      outerLengthMm: 268,
      holePattern: 'three_bolt',
      slotFrontFromHeelMm: 195,
      slotRearFromHeelMm: 182,
      archChannel: true,
    },
    baseline: { pain: 2, comfort: 60, numbness: false, power20MinW: 232 },
    measured: measured({
      thigh: [39.0, 38.8],
      shank: [39.8, 40.0],
      lever: [127, 128],
      ankle: [114, 115],
      pitch: [12, 13],
      knee: [36, 35],
      mth1: [187, 187],
      cleat: [184, 184],
    }),
    found: {
      saddleHeightMm: 701,
      saddleSetbackMm: 12,
      barDropMm: 95,
      barReachMm: 455,
      cleatBehindMth1LeftMm: 3,
      cleatBehindMth1RightMm: 3,
    },
    decision: {
      way: 'rear_plate_12',
      because: 'Runs after the ride; a channel through the arch rules out more.',
    },
    answers: {},
  },
];
