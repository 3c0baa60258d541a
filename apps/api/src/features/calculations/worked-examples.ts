import type { Calculations } from './calculations.js';

const leg = { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 };
const footPitch = { kind: 'constant', pitchDeg: 20 } as const;
const rider = { leg, footPitch, minimumKneeFlexionDeg: 35, seatTubeAngleDeg: 73 };
const hip = { xMm: -237.8, yMm: 777.9 };

const leftFoot = { mth1FromHeelMm: 203, mth5FromHeelMm: 179, heelBoneFromHeelMm: 8 };
const rightFoot = { mth1FromHeelMm: 191, mth5FromHeelMm: 169, heelBoneFromHeelMm: 8 };
const oneSide = { axleMm: 53, washersMm: 0, footOutsidePedalMm: 0, sidePlayMm: { inwards: 2, outwards: 2 } };
const stance = { treadMm: 150, left: oneSide, right: oneSide };

const contactPoints = {
  saddle: { xMm: -205, yMm: 690 },
  upperGrip: { xMm: 545, yMm: 640 },
  lowerGripYMm: null,
};
const search = {
  frame: {
    stackMm: 560,
    reachMm: 385,
    headTubeAngleDeg: 73,
    seatTubeAngleDeg: 73,
    seatTubeAxisAheadMm: 0,
    clampAlongTubeMm: { least: 600, greatest: 760 },
    topCapMm: 5,
  },
  parts: {
    stems: [90, 100, 110].map((lengthMm) => ({
      id: `${lengthMm} mm`,
      lengthMm,
      angleDeg: -6,
      clampHeightMm: 40,
    })),
    spacersMm: [0, 5, 10, 15, 20, 25, 30],
    bars: [{ id: 'short reach', reachMm: 80, riseMm: 0, dropMm: 125 }],
    seatposts: [
      { id: 'straight', setbackMm: 0 },
      { id: 'set back', setbackMm: 20 },
    ],
    saddle: {
      lengthMm: 270,
      tipTo80MmWidthMm: 140,
      railToTopMm: 45,
      widthPointBehindRailMiddleMm: 20,
      railTravelMm: 20,
    },
  },
  toleranceMm: 3,
  listed: 2,
};

const riderOnRoad = { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 };
const flat = {
  lengthM: 40000,
  gradient: 0,
  airDensityKgPerM3: 1.2,
  wind: { headwindMps: 0, crosswindMps: 0 },
};

/** Six turns at 90 a minute, filmed 30 times a second, as a system writes that works the angles out itself. */
const angleRows = Array.from({ length: 120 }, (_, i) => {
  const crankDeg = (i * 18) % 360;
  const turn = (crankDeg * Math.PI) / 180;
  const cell = (mean: number, swing: number, lag: number): string =>
    (mean + swing * Math.cos(turn - lag)).toFixed(1);
  return [
    (i / 30).toFixed(4),
    crankDeg,
    cell(73, 37, 0.2),
    cell(0, 25, 0.1),
    cell(95, 8, 1),
    cell(15, 10, 2),
  ];
});
const angleNames = 'time_s,crank_deg,knee_flexion_deg,thigh_elevation_deg,ankle_angle_deg,foot_pitch_deg';

/** One input for each calculator, shown in the document with what it answers. */
export const workedExamples: { readonly [Name in keyof Calculations]: Calculations[Name]['input'] } = {
  'cleat-plans': {
    shoe: {
      outerLengthMm: 290,
      holePattern: 'three_bolt',
      slotFrontFromHeelMm: 212,
      slotRearFromHeelMm: 197,
      archChannel: false,
    },
    cleatFromHeelMm: 200,
    mth1FromHeelMm: 205,
    rider,
  },
  'cleat-places': leftFoot,
  'cleats-for-both-feet': { left: leftFoot, right: rightFoot, rule: 'under-first-head' },
  'cleat-rotations': { toeOutDeg: 10, cleatTurnsDeg: 7, floatDeg: 9, heelBehindSpindleMm: 200 },
  stances: stance,
  'stance-options': { stance, side: 'left', wantedMm: 129.5 },
  'saddle-changes': { rider, change: { cleatBackMm: 24 } },
  'pedal-turns': { leg, footPitch, hip, steps: 4 },
  'saddle-heights': {
    inseamMm: 825,
    statureMm: 1750,
    crankLengthMm: 172.5,
    riderNow: {
      leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120 },
      footPitch,
      seatTubeAngleDeg: 73,
      saddleHeightMm: 728,
      readings: { staticBottomDeg: 32 },
      filmedIn: 'plane',
    },
  },
  'knee-over-spindle': { leg, footPitch, hip, landmark: 'tibial_tuberosity', landmarkAheadOfKneeJointMm: 30 },
  'saddle-swaps': {
    tipSetbackMm: 55,
    now: { lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45 },
    other: { lengthMm: 245, tipTo80MmWidthMm: 115, railToTopMm: 48 },
  },
  'racing-saddle-checks': { tipSetbackMm: 55, saddleLengthMm: 245, tiltDeg: -1, tipExemption: null },
  'crank-changes': { rider, newCrankLengthMm: 165 },
  'crank-lengths': { legLengthMm: 900, tibiaLengthMm: 400 },
  'segments-from-heights': {
    trochanterHeightMm: 900,
    kneeHeightMm: 490,
    malleolusHeightMm: 73,
    ankleFromHeelMm: 75,
    cleatFromHeelMm: 210,
    underFootMm: 42,
  },
  'segments-from-stature': { statureMm: 1750, table: 'drillis-contini', underFootMm: 42 },
  'leg-length-judgements': {
    method: 'tape',
    readingsMm: [7, 9],
    nature: 'structural',
    newOrChanged: false,
    complaints: false,
  },
  'leg-length-options': {
    rider,
    differenceMm: { value: 8, sd: 2.6 },
    carriedBy: 'shank',
    nature: 'structural',
    staggerMm: 6,
  },
  transfers: { ...search, wanted: contactPoints },
  'second-bikes': { ...search, contactPoints, rider, change: { cleatBackMm: 24 } },
  'air-densities': { temperatureC: 20, pressurePa: 101325, relativeHumidity: 0.5 },
  'course-times': { rider: riderOnRoad, stretches: [flat], powerW: 250 },
  'lowering-gains': { rider: riderOnRoad, dragAreaSdM2: 0.02, loweredMm: 14, course: [flat], powerW: 250 },
  'rearward-cleat-suitability': {
    steadyLongEfforts: true,
    timeTrial: false,
    runsAfterRiding: null,
    forefootNumbnessPersists: true,
    forefootNumbnessScreened: true,
    largeSideDifference: false,
    surgingBunchRacing: false,
    standsOften: null,
    walksInTheShoes: false,
    twistyOrSlowRiding: false,
  },
  'captured-motion': {
    csv: [angleNames, ...angleRows.map((row) => row.join(','))].join('\n'),
    film: { sideSeen: 'right', imageY: 'down', mmPerUnit: 1, markerLineWithSoleLevelDeg: 0 },
  },
  quantities: { text: '13 5/8"', quantity: 'length' },
  measurements: { kind: 'thigh_length', readings: [41.2, 41.6], unit: 'cm' },
  repeats: { readings: [432, 436], usualError: 2 },
  'side-differences': { left: { value: 434, sd: 3 }, right: { value: 424, sd: 4 } },
};
