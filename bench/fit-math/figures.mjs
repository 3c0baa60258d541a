import { cleatPlan, hipForKneeFlexion, revolution, transferPosition } from '@studio/fit-math';
import { cleatPlanInput } from '../cleat-plan-input.mjs';
import { inTurn, median } from '../figures.mjs';
import { bareClockRevolution, bareRevolution, bareSearch } from './bare.mjs';

const leg = { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 };
const hip = { xMm: -237.8, yMm: 777.9 };
/** @type {import('@studio/fit-math').FootPitch} */
const still = { kind: 'constant', pitchDeg: 10 };
/** @type {readonly [number, number, number, number]} */
const readingsDeg = [15, 0, 15, 30];
/** @type {import('@studio/fit-math').FootPitch} */
const clock = { kind: 'clock', readingsDeg };
/** @type {import('@studio/fit-math').SaddlePath} */
const tube = { kind: 'along-seat-tube', seatTubeAngleDeg: 73 };

/** @param {number} count @param {number} from @param {number} step */
const range = (count, from, step) => Array.from({ length: count }, (_, i) => from + step * i);

/** 20 000 builds: 100 stems, 10 heights of spacers, 5 bars, 4 seatposts. @type {import('@studio/fit-math').TransferInput} */
const transferInput = {
  wanted: { saddle: { xMm: -215, yMm: 730 }, upperGrip: { xMm: 548, yMm: 612 }, lowerGripYMm: 489 },
  frame: {
    stackMm: 560,
    reachMm: 385,
    headTubeAngleDeg: 73,
    seatTubeAngleDeg: 73.5,
    seatTubeAxisAheadMm: 0,
    clampAlongTubeMm: { least: 600, greatest: 760 },
    topCapMm: 8,
  },
  parts: {
    stems: range(20, 60, 4).flatMap((lengthMm) =>
      [-17, -10, -6, 6, 10].map((angleDeg) => ({
        id: `${lengthMm} ${angleDeg}`,
        lengthMm,
        angleDeg,
        clampHeightMm: 40,
      })),
    ),
    spacersMm: range(10, 0, 4),
    bars: range(5, 70, 4).map((reachMm) => ({ id: `${reachMm}`, reachMm, riseMm: 0, dropMm: 125 })),
    seatposts: [0, 10, 20, 25].map((setbackMm) => ({ id: `${setbackMm}`, setbackMm })),
    saddle: {
      lengthMm: 270,
      tipTo80MmWidthMm: 140,
      railToTopMm: 45,
      widthPointBehindRailMiddleMm: 15,
      railTravelMm: 18,
    },
  },
  toleranceMm: 3,
  listed: 10,
};

const into = {
  knee: new Float64Array(360),
  thigh: new Float64Array(360),
  ankle: new Float64Array(360),
};

const contenders = {
  bareTurn: () => {
    bareRevolution(leg, 10, hip, into);
  },
  turn: () => revolution(leg, still, hip, 360),
  bareClockTurn: () => {
    bareClockRevolution(leg, readingsDeg, hip, into);
  },
  clockTurn: () => revolution(leg, clock, hip, 360),
  solve: () => hipForKneeFlexion(leg, still, 35, tube),
  plan: () => cleatPlan(cleatPlanInput),
  bareSearch: () => bareSearch(transferInput),
  search: () => transferPosition(transferInput),
};

/**
 * Microseconds a call, over a burst short enough that whatever else the machine does seldom falls on one side only.
 *
 * @param {() => unknown} call
 * @param {number} burstMs
 */
function burst(call, burstMs) {
  const from = performance.now();
  for (let calls = 1; ; calls += 1) {
    call();
    const elapsed = performance.now() - from;
    if (elapsed >= burstMs) return (1000 * elapsed) / calls;
  }
}

/** The bare loops must answer as the library does, or the ratio says nothing. */
function requireSameAnswers() {
  const same = (/** @type {number} */ found, /** @type {number | undefined} */ wanted) => {
    if (wanted === undefined || !(Math.abs(found - wanted) < 1e-9)) {
      throw new Error(`the bare loop answers ${found}, the library ${wanted ?? 'nothing'}`);
    }
  };
  for (const [pitch, bare] of /** @type {const} */ ([
    [still, contenders.bareTurn],
    [clock, contenders.bareClockTurn],
  ])) {
    bare();
    revolution(leg, pitch, hip, 360).forEach((sample, i) => {
      same(into.knee[i] ?? NaN, sample.kneeFlexionDeg);
      same(into.thigh[i] ?? NaN, sample.thighElevationDeg);
      same(into.ankle[i] ?? NaN, sample.ankleAngleDeg);
    });
  }
  same(contenders.bareSearch(), contenders.search().builds[0]?.greatestLeftoverMm);
}

/**
 * @param {{ rounds: number, turns: number, burstMs: number }} options in each round the contenders take turns, and the
 *   median of each one's turns is its round
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function fitMathFigures({ rounds, turns, burstMs }) {
  requireSameAnswers();
  const timed = /** @type {Record<keyof typeof contenders, () => Promise<number>>} */ (
    Object.fromEntries(
      Object.entries(contenders).map(([name, call]) => [name, () => Promise.resolve(burst(call, burstMs))]),
    )
  );
  // Once for the compiler.
  await inTurn(turns, timed);
  /** @type {Record<string, number>[]} */
  const measured = [];
  for (let round = 0; round < rounds; round += 1) {
    const taken = Object.entries(await inTurn(turns, timed));
    measured.push(Object.fromEntries(taken.map(([name, values]) => [name, median(values)])));
  }
  /** @param {keyof typeof contenders} name @param {string} title */
  const series = (name, title) => ({
    name: title,
    unit: 'µs',
    rounds: measured.map((round) => round[name] ?? NaN),
  });
  const bareTurn = series('bareTurn', 'bare turn of 360 steps');
  return [
    {
      figure: 'turn of 360 steps, foot still',
      measured: series('turn', 'revolution'),
      baseline: bareTurn,
      atMost: 1.5,
    },
    {
      figure: 'turn of 360 steps, four clock readings',
      measured: series('clockTurn', 'revolution'),
      baseline: series('bareClockTurn', 'bare turn of 360 steps'),
      atMost: 1.5,
    },
    {
      figure: 'height solve',
      measured: series('solve', 'hipForKneeFlexion'),
      baseline: bareTurn,
      atMost: 12,
    },
    {
      figure: 'cleat plan with its errors',
      measured: series('plan', 'cleatPlan'),
      baseline: bareTurn,
      atMost: 90,
    },
    {
      figure: 'transfer over 20 000 builds',
      measured: series('search', 'transferPosition'),
      baseline: series('bareSearch', 'bare search'),
      atMost: 3,
    },
  ];
}
