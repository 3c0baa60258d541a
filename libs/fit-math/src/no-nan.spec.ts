import { describe, expect, it } from '@jest/globals';
import * as fit from './index.js';

/**
 * Every public function that takes numbers, with inputs it answers. Each number in turn is made impossible; the answer
 * must be the library's own error or hold finite numbers only.
 */
const leg: fit.Leg = {
  thighMm: 434,
  shankMm: 425,
  footLeverMm: 140,
  ankleAboveSpindleMm: 120,
  crankLengthMm: 172.5,
};
const hip = { xMm: -237.8, yMm: 777.9 };
const rider: fit.RiderOnBike = {
  leg,
  footPitch: { kind: 'constant', pitchDeg: 15 },
  minimumKneeFlexionDeg: 35,
  seatTubeAngleDeg: 73,
};
const constant: fit.FootPitch = { kind: 'constant', pitchDeg: 10 };
const series: fit.FootPitch = { kind: 'series', readingsDeg: [10, 12, 20, 25, 22, 15] };
const shoe: fit.ShoeFacts = {
  outerLengthMm: 290,
  holePattern: 'three_bolt',
  slotFrontFromHeelMm: 212,
  slotRearFromHeelMm: 197,
  archChannel: false,
};
const foot: fit.FootLandmarks = { mth1FromHeelMm: 203, mth5FromHeelMm: 179, heelBoneFromHeelMm: 8 };
const frame: fit.FrameGeometry = {
  stackMm: 560,
  reachMm: 385,
  headTubeAngleDeg: 73,
  seatTubeAngleDeg: 73.5,
  seatTubeAxisAheadMm: 0,
  clampAlongTubeMm: { least: 600, greatest: 760 },
  topCapMm: 8,
};
const stem: fit.Stem = { id: 's', lengthMm: 100, angleDeg: -6, clampHeightMm: 40 };
const bar: fit.Bar = { id: 'b', reachMm: 80, riseMm: 0, dropMm: 125 };
const seatpost: fit.Seatpost = { id: 'p', setbackMm: 20 };
const saddle: fit.RailedSaddle = {
  lengthMm: 270,
  tipTo80MmWidthMm: 140,
  railToTopMm: 45,
  widthPointBehindRailMiddleMm: 15,
  railTravelMm: 18,
};
const search = {
  frame,
  parts: { stems: [stem], spacersMm: [0, 10], bars: [bar], seatposts: [seatpost], saddle },
  toleranceMm: 5,
  listed: 3,
};
const wanted: fit.ContactPoints = {
  saddle: { xMm: -225, yMm: 730 },
  upperGrip: { xMm: 555, yMm: 605 },
  lowerGripYMm: 480,
};
const onRoad: fit.RiderOnRoad = { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 };
const road: fit.Road = {
  gradient: 0.01,
  airDensityKgPerM3: 1.2,
  wind: { headwindMps: 1, crosswindMps: 1 },
};
const weather: fit.Weather = { temperatureC: 20, pressurePa: 100_000, relativeHumidity: 0.5 };
const footStance: fit.FootStance = {
  axleMm: 53,
  washersMm: 1,
  footOutsidePedalMm: 0,
  sidePlayMm: { inwards: 2, outwards: 2 },
};
const standing: fit.StanceInput = { treadMm: 150, left: footStance, right: footStance };
const riderNow: fit.RiderNow = {
  leg,
  footPitch: constant,
  seatTubeAngleDeg: 73,
  saddleHeightMm: 740,
  readings: { staticBottomDeg: 30, dynamicBottomDeg: 38, dynamicStraightestDeg: 36 },
  filmedIn: 'space',
  errors: fit.usualErrors,
};
const crankDeg = Array.from({ length: 400 }, (_, i) => (5 * i) % 360);
const recording: fit.AngleRecording = {
  kind: 'angles',
  timeS: crankDeg.map((_, i) => i / 108),
  crankDeg,
  kneeFlexionDeg: crankDeg.map(() => 70),
  thighElevationDeg: crankDeg.map(() => -30),
  ankleAngleDeg: crankDeg.map(() => 80),
  footPitchDeg: crankDeg.map(() => 12),
};
const film: fit.FilmSettings = {
  sideSeen: 'right',
  imageY: 'down',
  mmPerUnit: 1,
  markerLineWithSoleLevelDeg: 0,
};

type Call = readonly [name: string, run: (args: readonly unknown[]) => unknown, args: readonly unknown[]];

/** A function and arguments of its types, in which any number can then be exchanged. */
const call =
  <Arguments extends readonly unknown[]>(name: string, run: (...args: Arguments) => unknown) =>
  (...args: Arguments): Call => [name, (changed) => run(...(changed as Arguments)), args];

const calls = [
  call('convertQuantity', fit.convertQuantity<'length'>)('length', 3, 'in', 'mm'),
  call('readMeasurement', fit.readMeasurement)('thigh_length', [410, 412], 'mm'),
  call('summariseRepeats', fit.summariseRepeats)([432, 436], 2),
  call('sideDifference', fit.sideDifference)({ value: 434, sd: 3 }, { value: 424, sd: 4 }),
  call('segmentsFromHeights', fit.segmentsFromHeights)(
    {
      trochanterHeightMm: 900,
      kneeHeightMm: 490,
      malleolusHeightMm: 73,
      ankleFromHeelMm: 75,
      cleatFromHeelMm: 210,
      underFootMm: 42,
    },
    fit.usualHeightErrors,
  ),
  call(
    'segmentsFromStature',
    fit.segmentsFromStature,
  )({
    statureMm: 1750,
    table: 'landmark-survey',
    underFootMm: 42,
  }),
  call('jointAngles', fit.jointAngles)(leg, series, hip, 100),
  call('legPoints', fit.legPoints)(leg, series, hip, 100),
  call('revolution', fit.revolution)(leg, constant, hip, 12),
  call('straightest', fit.straightest)(leg, { kind: 'clock', readingsDeg: [15, 5, 15, 25] }, hip),
  call('hipForKneeFlexion along the tube', fit.hipForKneeFlexion)(leg, series, 35, {
    kind: 'along-seat-tube',
    seatTubeAngleDeg: 73,
    through: hip,
  }),
  call('hipForKneeFlexion at constant setback', fit.hipForKneeFlexion)(leg, constant, 35, {
    kind: 'constant-setback',
    hipSetbackMm: 230,
  }),
  call('hipForKneeFlexion at constant knee', fit.hipForKneeFlexion)(leg, constant, 35, {
    kind: 'constant-knee-over-spindle',
    kneeAheadOfSpindleMm: -10,
  }),
  call('compareSaddleHeights', fit.compareSaddleHeights)(
    { inseamMm: 850, trochanterHeightMm: 900, statureMm: 1750, dynamicKneeFlexionDeg: 35 },
    172.5,
    riderNow,
  ),
  call('kneeTargetHeights', fit.kneeTargetHeights)(riderNow),
  call('saddlePlace', fit.saddlePlace)(740, 73),
  call('effectiveSeatAngle', fit.effectiveSeatAngle)({ setbackMm: 200, riseMm: 700 }),
  call('widthPointSetback', fit.widthPointSetback)(55, saddle, 1),
  call('swapSaddle', fit.swapSaddle)(55, saddle, saddle, 1),
  call('kneeOverSpindle', fit.kneeOverSpindle)(
    { leg, footPitch: constant, hip, landmark: 'patella_lower_pole', landmarkAheadOfKneeJointMm: 30 },
    fit.usualKneeOverSpindleErrors,
  ),
  call(
    'checkRacingSaddle',
    fit.checkRacingSaddle,
  )({
    tipSetbackMm: 48,
    saddleLengthMm: 270,
    tiltDeg: 0,
    tipExemption: false,
  }),
  call('ankleMomentRatio', fit.ankleMomentRatio)(140, 35),
  call('midfootFromHeelMm', fit.midfootFromHeelMm)(290),
  call('cleatPlaces', fit.cleatPlaces)(foot, fit.usualLandmarkErrors),
  call(
    'cleatsForBothFeet',
    fit.cleatsForBothFeet,
  )({
    left: foot,
    right: foot,
    rule: 'under-first-head',
    landmarkErrors: fit.usualLandmarkErrors,
    riders: { left: rider, right: rider },
    riderErrors: fit.usualErrors,
  }),
  call(
    'cleatRotation',
    fit.cleatRotation,
  )({
    toeOutDeg: 8,
    cleatTurnsDeg: 7,
    floatDeg: 9,
    heelBehindSpindleMm: 200,
  }),
  call('stance', fit.stance)(standing),
  call('stanceOptions', fit.stanceOptions)(standing, 'left', 130),
  call('saddleChange', fit.saddleChange)(
    rider,
    { cleatBackMm: 12, crankLongerMm: 2.5, ankleHigherMm: 3 },
    fit.usualErrors,
  ),
  call('saddleChangeForCleat', fit.saddleChangeForCleat)(rider, 24, fit.usualErrors),
  call(
    'cleatPlan',
    fit.cleatPlan,
  )({
    shoe,
    cleatFromHeelMm: 200,
    mth1FromHeelMm: 205,
    rider,
    errors: fit.usualErrors,
  }),
  call('crankChange', fit.crankChange)(rider, 165, fit.usualErrors),
  call('compareCrankLengths', fit.compareCrankLengths)({ legLengthMm: 880, tibiaLengthMm: 410 }),
  call(
    'judgeLegLength',
    fit.judgeLegLength,
  )({
    method: 'tape',
    readingsMm: [7, 9],
    nature: 'structural',
    newOrChanged: false,
    complaints: false,
  }),
  call(
    'legLengthOptions',
    fit.legLengthOptions,
  )({
    rider,
    differenceMm: { value: 8, sd: 2.6 },
    carriedBy: 'both',
    nature: 'structural',
    shimShare: 0.5,
    staggerMm: 6,
  }),
  call('barClampCentre', fit.barClampCentre)(frame, 20, stem),
  call('contactPoints', fit.contactPoints)(frame, {
    stem,
    spacersMm: 10,
    bar,
    seatpost,
    saddle,
    clampAlongTubeMm: 700,
    saddleForwardMm: 5,
  }),
  call('transferPosition', fit.transferPosition)({ ...search, wanted }),
  call(
    'secondBike',
    fit.secondBike,
  )({
    ...search,
    contactPoints: wanted,
    rider,
    change: { cleatBackMm: 24 },
    errors: fit.usualErrors,
  }),
  call('airDensityKgPerM3', fit.airDensityKgPerM3)(weather),
  call('airDensity', fit.airDensity)(weather, fit.usualWeatherErrors),
  call('saturationVapourPressurePa', fit.saturationVapourPressurePa)(20),
  call('standardPressurePa', fit.standardPressurePa)(1000),
  call('standardTemperatureK', fit.standardTemperatureK)(1000),
  call('windOnRoad', fit.windOnRoad)(3, 310, 340),
  call('roadPower', fit.roadPower)(onRoad, road, 9, { fromMps: 8.9, toMps: 9.1, durationS: 20 }),
  call('steadySpeedMps', fit.steadySpeedMps)(onRoad, road, 200),
  call('courseTime', fit.courseTime)(onRoad, [{ ...road, lengthM: 1000 }], 200),
  call('timeTrialAreaRatio', fit.timeTrialAreaRatio)(
    { statureM: 1.8, massKg: 75 },
    { statureM: 1.7, massKg: 65 },
  ),
  call('dragAreaChangeM2', fit.dragAreaChangeM2)(10, fit.usualSilhouette),
  call(
    'loweringGain',
    fit.loweringGain,
  )({
    rider: onRoad,
    dragAreaSdM2: 0.02,
    loweredMm: 14,
    silhouette: fit.usualSilhouette,
    course: [{ ...road, lengthM: 1000 }],
    powerW: 250,
  }),
  call('analyseMotion', fit.analyseMotion)(recording, film),
  call('footLengthOfSize', fit.footLengthOfSize)('eu', 43),
  call('sizesOfFoot', fit.sizesOfFoot)(270),
  call('comparePositions', fit.comparePositions)(
    { values: { saddleHeightMm: 740, saddleTiltDeg: -1 }, methods: {} },
    { values: { saddleHeightMm: 731, saddleTiltDeg: 0.5 }, methods: {} },
  ),
  call('positionsSideBySide', fit.positionsSideBySide)(
    { values: { saddleHeightMm: 740, saddleTiltDeg: -1 }, methods: {} },
    { values: { saddleHeightMm: 731, saddleTiltDeg: 0.5 }, methods: {} },
    { values: { saddleHeightMm: 735, saddleTiltDeg: 0 }, methods: {} },
  ),
  call(
    'secondPosition',
    fit.secondPosition,
  )({
    first: {
      saddleHeightMm: 740,
      saddleSetbackMm: 60,
      hoodReachMm: 690,
      hoodDropMm: 55,
      crankLengthMm: 172.5,
    },
    ...{ firstSeatTubeAngleDeg: 73, secondSeatTubeAngleDeg: 75, saddleChangeMm: -18, cleatBackMm: 24 },
    ...{ crankLengthMm: 170, saddleTipTo80MmLongerMm: 5, sameBars: true, sameShoes: false },
    otherwise: { saddleForwardMm: 0, saddleUpMm: 2.5, gripsForwardMm: 0, gripsUpMm: 0 },
  }),
  call('partsToChange', fit.partsToChange)(
    { stem: 's', spacersMm: 20, bars: 'b', seatpost: null, crankLengthMm: 172.5 },
    { stemId: 's', spacersMm: 10, barId: 'b', seatpostId: 'p' },
    170,
  ),
];

type Path = readonly (string | number)[];

/** Where numbers stand; of a long series the first, one inside and the last. */
function numbersIn(value: unknown, path: Path = []): Path[] {
  if (typeof value === 'number') return [path];
  if (Array.isArray(value)) {
    const places = value.length > 20 ? [0, 37, value.length - 1] : [...value.keys()];
    return places.flatMap((i) => numbersIn((value as unknown[])[i], [...path, i]));
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, one]) => numbersIn(one, [...path, name]));
}

function exchanged(value: unknown, [step, ...rest]: Path, by: unknown): unknown {
  if (step === undefined) return by;
  if (Array.isArray(value))
    return value.map((one: unknown, i) => (i === step ? exchanged(one, rest, by) : one));
  const record = value as Record<string, unknown>;
  return { ...record, [step]: exchanged(record[step], rest, by) };
}

const isFinite = (value: unknown): boolean =>
  typeof value === 'number'
    ? Number.isFinite(value)
    : typeof value !== 'object' || value === null || Object.values(value).every(isFinite);

describe('what leaves the library', () => {
  it.each(calls)('%s answers its own inputs with finite numbers', (_, run, args) => {
    expect(isFinite(run(args))).toBe(true);
  });

  it.each(calls)('%s lets no NaN, infinity or absurd number through', (_, run, args) => {
    const faults: string[] = [];
    for (const path of numbersIn(args)) {
      for (const impossible of [Number.NaN, Infinity, -1e300, 1e300, 0]) {
        try {
          if (isFinite(run(exchanged(args, path, impossible) as readonly unknown[]))) continue;
          faults.push(`${path.join('.')} = ${impossible} is answered with a number that is not finite`);
        } catch (error) {
          if (error instanceof fit.FitMathError && error.field !== '' && error.allowed !== '') continue;
          faults.push(`${path.join('.')} = ${impossible} throws ${String(error)}`);
        }
      }
    }
    expect(faults).toEqual([]);
  });

  it('is asked of every public function that takes numbers', () => {
    const asked = new Set(calls.map(([name]) => name.split(' ')[0]));
    // These take a function, an id, a text, or yes and no.
    const others = [
      'propagate',
      'measurementKind',
      'positionField',
      'positionError',
      'readQuantity',
      'readMotionCsv',
      'rearwardCleatSuitability',
    ];
    const functions = Object.entries(fit)
      .filter(([name, one]) => typeof one === 'function' && name !== 'FitMathError' && !others.includes(name))
      .map(([name]) => name);
    expect(functions.filter((name) => !asked.has(name))).toEqual([]);
  });
});
