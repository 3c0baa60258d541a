import { cleatPlan, type CleatPlanInput, type PositionFieldId } from '@studio/fit-math';
import type { FitSheetFacts, PlanFacts, PositionFacts } from '../facts.js';

/** The leg of the chain's worked numbers: thigh 434, shank 425, lever 140, ankle 120, crank 172.5 mm. */
export const inputs: CleatPlanInput = {
  shoe: {
    outerLengthMm: 290,
    holePattern: 'three_bolt',
    slotFrontFromHeelMm: 212,
    slotRearFromHeelMm: 197,
    archChannel: false,
  },
  cleatFromHeelMm: 205,
  mth1FromHeelMm: 210,
  rider: {
    leg: {
      thighMm: 434,
      shankMm: 425,
      footLeverMm: 140,
      ankleAboveSpindleMm: 120,
      crankLengthMm: 172.5,
    },
    footPitch: { kind: 'constant', pitchDeg: 10 },
    minimumKneeFlexionDeg: 35,
    seatTubeAngleDeg: 73,
  },
};

export const positionFacts = (values: Partial<Record<PositionFieldId, number | null>>): PositionFacts => ({
  values,
  methods: {},
  hardware: { left: null, right: null },
});

export const found = {
  saddleHeightMm: 740,
  saddleSetbackMm: 60,
  saddleTiltDeg: -1,
  barReachMm: 530,
  barDropMm: 60,
  hoodReachMm: 680,
  hoodDropMm: 48,
  cleatBehindMth1LeftMm: 5,
  cleatBehindMth1RightMm: 5,
  cleatRotationLeftDeg: 3,
  cleatRotationRightDeg: 4,
};

export const left = {
  ...found,
  saddleHeightMm: 728,
  saddleSetbackMm: 57,
  barDropMm: 61,
  cleatBehindMth1LeftMm: 32,
  cleatBehindMth1RightMm: 32,
};

const plan = (side: PlanFacts['side']): PlanFacts => ({
  side,
  inputs,
  result: cleatPlan(inputs),
  saddleOffsetMm: 0,
  chosenWay: 'rear_plate_24',
  chosenBecause: 'Most of the effect, and it can be undone.',
});

/** An invented rider with everything recorded; change what a test is about. */
export const sheetFacts = (known: Partial<FitSheetFacts> = {}): FitSheetFacts => ({
  studio: 'Harbour Lane Fitting',
  rider: 'Robin Rider',
  fitter: 'Kim Fitter',
  bike: { name: 'Road bike', crankLengthMm: 172.5, seatTubeAngleDeg: 73 },
  shoe: { name: 'Summer shoes', ...inputs.shoe },
  visitOn: '2026-03-02',
  signedOn: '2026-03-02',
  contentHash: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
  found: { ...positionFacts(found), hardware: { left: ['three_bolt_cleat'], right: ['three_bolt_cleat'] } },
  left: {
    ...positionFacts(left),
    hardware: { left: ['three_bolt_cleat', 'rear_plate_24'], right: ['three_bolt_cleat', 'rear_plate_24'] },
  },
  measurements: [
    { kind: 'stature' as const, side: null, method: 'tape', mean: 1770, error: 5 },
    ...(['left', 'right'] as const).flatMap((side) => [
      { kind: 'thigh_length' as const, side, method: 'calliper', mean: 434, error: 5.7 },
      { kind: 'mth1_from_heel' as const, side, method: 'calliper', mean: 210, error: 3 },
      { kind: 'mth5_from_heel' as const, side, method: 'calliper', mean: 184, error: 4 },
      { kind: 'cleat_from_heel' as const, side, method: 'calliper', mean: 205, error: 1 },
    ]),
  ],
  plans: [plan('left'), plan('right')],
  shoeWorks: [],
  footPitch: {},
  nextOn: ['2026-03-16', '2026-04-27'],
  advice: null,
  amendments: [],
  ...known,
});
