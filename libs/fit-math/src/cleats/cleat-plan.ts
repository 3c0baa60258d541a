import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import type { Point } from '../leg-chain/ankle-position.js';
import { straightestOverTurn } from '../leg-chain/revolution.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';
import { ankleMomentRatio } from './ankle-moment-ratio.js';
import { cleatWays, type CleatWay, type ShoeFacts } from './hardware.js';
import { midfootFromHeelMm } from './midfoot.js';
import {
  solveSaddleChanges,
  usualErrors,
  type RiderErrors,
  type RiderOnBike,
  type SaddleChangeSolution,
} from './saddle-change.js';

/** One foot in one shoe on one bike. */
export interface CleatPlanInput {
  readonly shoe: ShoeFacts;
  /** Cleat centre now, from the heel end of the shoe. */
  readonly cleatFromHeelMm: number;
  /** First metatarsal head, from the heel end of the shoe. */
  readonly mth1FromHeelMm: number;
  /** The leg as it is with the cleat where it is now. */
  readonly rider: RiderOnBike;
  /** Standard deviations of the measured values; the usual ones when absent. */
  readonly errors?: RiderErrors;
}

export interface CleatOption {
  /** The way of going back: the id of a `CleatWay`. */
  readonly way: string;
  readonly feasible: boolean;
  /** Why not; empty when feasible. */
  readonly reasons: readonly Caution[];
  readonly cleatFromHeelMm: number;
  readonly movesBackMm: number;
  readonly behindMth1Mm: number;
  /** How far in front of the midfoot line it stays; 0 on it, negative behind. */
  readonly shortOfMidfootMm: number;
  /** Along the seat tube, negative = lower. */
  readonly saddleHeightChangeMm: Uncertain;
  /** Vertical, negative = lower: what keeps the drop from saddle to bars. */
  readonly barHeightChangeMm: Uncertain;
  /** The straightest knee after the change of saddle: as before, but at another place of the turn. */
  readonly straightestAfter: { readonly kneeFlexionDeg: number; readonly crankDeg: number };
  /** The straightest knee if the saddle were left where it is; null when the leg would not reach. */
  readonly straightestWithSaddleKept: { readonly kneeFlexionDeg: number; readonly crankDeg: number } | null;
  readonly ankleMomentRatio: number;
  readonly cautions: readonly Caution[];
}

export interface CleatPlan {
  readonly formulaVersion: string;
  readonly midfootFromHeelMm: number;
  readonly now: { readonly behindMth1Mm: number; readonly shortOfMidfootMm: number };
  readonly options: readonly CleatOption[];
}

const pitchDrifts: Caution = {
  code: 'foot-pitch-drifts',
  text: 'Computed with the foot held as it is now. It drifts after a cleat change: re-measure at follow-up.',
};
const toeOverlap: Caution = {
  code: 'toe-overlap',
  text: 'The toes come forward: check their clearance to the front wheel at full lock before riding.',
};
const inStages: Caution = {
  code: 'in-stages',
  text: 'A large change: ease into it with short easy rides and practise releasing both feet at a standstill.',
};
/** From here on a change is large. House rule. */
const largeMoveMm = 20;

/**
 * For each way of bringing the cleat back: can this shoe take it, where does the cleat land, and what do saddle, bars,
 * knee and calf do then.
 *
 * @throws FitMathError naming the input when one is out of range, the slots are out of order or the leg cannot reach
 * @source leg chain for the consequences; ways and their limits: common practice, no source
 * @check outside/cleat-plan: the survey’s mean person, facts of the trade
 * @tolerance ranges
 * @example
 * const leg = { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 };
 * cleatPlan({
 *   shoe: {
 *     outerLengthMm: 290,
 *     holePattern: 'three_bolt',
 *     slotFrontFromHeelMm: 212,
 *     slotRearFromHeelMm: 197,
 *     archChannel: false,
 *   },
 *   cleatFromHeelMm: 200,
 *   mth1FromHeelMm: 205,
 *   rider: {
 *     leg,
 *     footPitch: { kind: 'constant', pitchDeg: 20 },
 *     minimumKneeFlexionDeg: 35,
 *     seatTubeAngleDeg: 73,
 *   },
 * }).options[2];
 * // { way: 'rear_plate_24', feasible: true, movesBackMm: 27, saddleHeightChangeMm: { value: -15.2…, sd: 1.4… } }
 */
export function cleatPlan(input: CleatPlanInput): CleatPlan {
  const { shoe, cleatFromHeelMm, mth1FromHeelMm, rider, errors = usualErrors } = input;
  const midfoot = midfootFromHeelMm(shoe.outerLengthMm);
  requireRange('shoe.slotRearFromHeelMm', shoe.slotRearFromHeelMm, 50, shoe.outerLengthMm);
  requireRange(
    'shoe.slotFrontFromHeelMm',
    shoe.slotFrontFromHeelMm,
    shoe.slotRearFromHeelMm,
    shoe.outerLengthMm,
  );
  requireRange('cleatFromHeelMm', cleatFromHeelMm, 50, shoe.outerLengthMm);
  requireRange('mth1FromHeelMm', mth1FromHeelMm, 80, shoe.outerLengthMm);

  const places = cleatWays.map((way) => landing(way, shoe, midfoot));
  // Ways that end at the same place ask the same of the saddle.
  const moves = [...new Set(places.map((place) => cleatFromHeelMm - place))];
  const { before, changes } = solveSaddleChanges(
    rider,
    moves.map((cleatBackMm) => ({ cleatBackMm })),
    errors,
  );
  const changeBy = new Map(moves.map((movesBackMm, i) => [movesBackMm, changes[i] as SaddleChangeSolution]));
  const verticalShare = Math.sin(radiansOf(rider.seatTubeAngleDeg));
  return {
    formulaVersion,
    midfootFromHeelMm: midfoot,
    now: { behindMth1Mm: mth1FromHeelMm - cleatFromHeelMm, shortOfMidfootMm: cleatFromHeelMm - midfoot },
    options: cleatWays.map((way, i) => {
      const lands = places[i] as number;
      const movesBackMm = cleatFromHeelMm - lands;
      const change = changeBy.get(movesBackMm) as SaddleChangeSolution;
      const saddle = change.saddleHeightChangeMm;
      const reasons = obstacles(way, shoe, movesBackMm);
      return {
        way: way.id,
        feasible: reasons.length === 0,
        reasons,
        cleatFromHeelMm: lands,
        movesBackMm,
        behindMth1Mm: mth1FromHeelMm - lands,
        shortOfMidfootMm: lands - midfoot,
        saddleHeightChangeMm: saddle,
        barHeightChangeMm: { value: saddle.value * verticalShare, sd: saddle.sd * verticalShare },
        straightestAfter: {
          kneeFlexionDeg: rider.minimumKneeFlexionDeg,
          crankDeg: change.hip.straightestAtCrankDeg,
        },
        straightestWithSaddleKept: withSaddleKept(rider, change, before.hip),
        ankleMomentRatio: ankleMomentRatio(rider.leg.footLeverMm, movesBackMm),
        cautions: [
          pitchDrifts,
          ...(movesBackMm >= largeMoveMm ? [inStages, toeOverlap] : []),
          ...way.cautions,
        ],
      };
    }),
  };
}

function landing(way: CleatWay, shoe: ShoeFacts, midfoot: number): number {
  if (way.reach === 'midfoot') return midfoot;
  return shoe.slotRearFromHeelMm - way.reach.behindSlotsMm;
}

function obstacles(way: CleatWay, shoe: ShoeFacts, movesBackMm: number): Caution[] {
  const reasons: Caution[] = [];
  if (way.never) reasons.push(way.never);
  if (!way.fits.includes(shoe.holePattern)) {
    reasons.push({ code: 'hole-pattern', text: 'The part is not made for this hole pattern.' });
  }
  if (way.needsWholeArch && shoe.archChannel) {
    reasons.push({
      code: 'arch-channel',
      text: 'A channel cuts through the arch: there is no whole sole to work on.',
    });
  }
  if (movesBackMm <= 0) {
    reasons.push({ code: 'not-rearward', text: 'The cleat is there or farther back already.' });
  }
  return reasons;
}

function withSaddleKept(
  { footPitch }: RiderOnBike,
  { turn, leg }: SaddleChangeSolution,
  hip: Point,
): CleatOption['straightestWithSaddleKept'] {
  try {
    const { kneeFlexionDeg, crankDeg } = straightestOverTurn(turn, leg, footPitch, hip);
    return { kneeFlexionDeg, crankDeg };
  } catch (error) {
    if (error instanceof FitMathError && error.code === 'leg.cannot-reach') return null;
    throw error;
  }
}
