import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import type { RiderOnBike } from '../cleats/saddle-change.js';
import { formulaVersion } from '../formula-version.js';
import type { Point } from '../leg-chain/ankle-position.js';
import { ankleTurn, type AnkleTurn } from '../leg-chain/ankle-turn.js';
import { hipForKneeFlexion, hipOverTurn } from '../leg-chain/hip-for-knee-flexion.js';
import { requireLeg, type Leg } from '../leg-chain/leg.js';
import { straightestOverTurn } from '../leg-chain/revolution.js';
import { requireRange } from '../require-range.js';
import { standardDeviations, type Uncertain } from '../uncertainty.js';
import { clinicallyLargeMm, type LegLengthNature } from './judge-leg-length.js';

export interface LegLengthOptionsInput {
  /** The rider with a leg midway between the two. */
  readonly rider: RiderOnBike;
  /** Longer less shorter. 0–60. */
  readonly differenceMm: Uncertain;
  /** Which segment carries it; `both` = each by its length. */
  readonly carriedBy: 'thigh' | 'shank' | 'both';
  readonly nature: LegLengthNature;
  /** Share of the difference to go under the shorter leg. 0–1; a half when absent. */
  readonly shimShare?: number;
  /** How far the cleats come apart along the soles: the longer leg's back by half, the shorter's forward. 0–40. */
  readonly staggerMm: number;
}

export const saddleSettings = ['longer', 'shorter', 'between'] as const;
/** Whose straightest knee the saddle gives the wanted flexion; `between` = half-way between the two heights. */
export type SaddleSetFor = (typeof saddleSettings)[number];

export interface LegInTurn {
  readonly kneeFlexionDeg: number;
  readonly crankDeg: number;
}

export interface LegLengthOption {
  readonly id: 'none' | 'shim' | 'stagger' | 'shim-and-stagger';
  readonly offered: boolean;
  /** Why not; empty when offered. */
  readonly reasons: readonly Caution[];
  readonly shimMm: number;
  readonly longerCleatBackMm: number;
  readonly shorterCleatForwardMm: number;
  readonly saddles: readonly {
    readonly setFor: SaddleSetFor;
    /** Against a saddle set for the midway leg with nothing done; negative = lower. Along the seat tube. */
    readonly saddleHeightChangeMm: number;
    readonly longer: LegInTurn;
    readonly shorter: LegInTurn;
    /** Straightest knee of the longer leg less that of the shorter; positive = the longer bends more. */
    readonly kneeDifferenceDeg: Uncertain;
  }[];
}

export interface LegLengthOptions {
  readonly formulaVersion: string;
  readonly options: readonly LegLengthOption[];
  readonly cautions: readonly Caution[];
}

/** Pruitt & Matheny 2006 (book, by way of a secondary source): shim only above 3 mm, and by half the difference. */
const shimAboveMm = 3;
const usualShimShare = 0.5;

const levelPelvis: Caution = {
  code: 'pelvis-level',
  text: 'Computed with both hip joints at one place. A pelvis that drops or turns takes up part of it: look at the rider.',
};
const adaptSlowly: Caution = {
  code: 'adapt-slowly',
  text: 'Correct at the shoe rather than by unequal cranks, and in steps: corrections lowered efficiency at first (Macdermid & Mann 2015, Sports Exerc Med Open J 1(1)).',
};

/**
 * What can be done about a leg-length difference on the bike and what each does to both knees: nothing, a shim under
 * part of it, cleats staggered along the soles, or both; with the saddle set for either leg or between.
 *
 * Shims are offered only for a difference beyond its error, above 3 mm, below 20 mm and judged structural.
 *
 * @throws FitMathError naming the input outside its range, or when a leg cannot have that flexion or cannot reach
 * @source leg chain for both legs; offers after Pruitt & Matheny 2006 (secondary) and Knutson 2005
 * @check outside/leg-length: Pruitt & Matheny 2006 (secondary); two-link geometry
 * @tolerance exact; 10 %
 * @example
 * const leg = { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 };
 * legLengthOptions({
 *   rider: {
 *     leg,
 *     footPitch: { kind: 'constant', pitchDeg: 15 },
 *     minimumKneeFlexionDeg: 35,
 *     seatTubeAngleDeg: 73,
 *   },
 *   differenceMm: { value: 8, sd: 2.6 },
 *   carriedBy: 'both',
 *   nature: 'structural',
 *   staggerMm: 6,
 * }).options[1];
 * // { id: 'shim', offered: true, shimMm: 4 }
 */
export function legLengthOptions(input: LegLengthOptionsInput): LegLengthOptions {
  const { rider, differenceMm, staggerMm, shimShare = usualShimShare } = input;
  requireRange('differenceMm.value', differenceMm.value, 0, 60);
  requireRange('differenceMm.sd', differenceMm.sd, 0, 20);
  requireRange('shimShare', shimShare, 0, 1);
  requireRange('staggerMm', staggerMm, 0, 40);
  const shimMm = shimShare * differenceMm.value;
  const noShim = shimObstacles(input);
  const { leg, footPitch, minimumKneeFlexionDeg, seatTubeAngleDeg } = rider;
  const tube = { kind: 'along-seat-tube', seatTubeAngleDeg } as const;
  const unmoved = hipForKneeFlexion(leg, footPitch, minimumKneeFlexionDeg, tube).hipDistanceMm;
  const option = (id: LegLengthOption['id'], shim: number, stagger: number, reasons: readonly Caution[]) => ({
    id,
    offered: reasons.length === 0,
    reasons,
    shimMm: shim,
    longerCleatBackMm: stagger / 2,
    shorterCleatForwardMm: stagger / 2,
    saddles: saddlesFor(input, shim, stagger, unmoved),
  });
  return {
    formulaVersion,
    options: [
      option('none', 0, 0, []),
      option('shim', shimMm, 0, noShim),
      option('stagger', 0, staggerMm, []),
      option('shim-and-stagger', shimMm, staggerMm, noShim),
    ],
    cautions: [levelPelvis, adaptSlowly],
  };
}

function shimObstacles({ differenceMm, nature }: LegLengthOptionsInput): Caution[] {
  const reasons: Caution[] = [];
  if (nature !== 'structural') {
    reasons.push({ code: 'not-structural', text: 'Only a difference judged structural is shimmed.' });
  }
  if (differenceMm.value <= 1.96 * differenceMm.sd) {
    reasons.push({ code: 'within-error', text: 'The difference is not beyond its error.' });
  }
  if (differenceMm.value <= shimAboveMm) {
    reasons.push({ code: 'small', text: `Not more than ${shimAboveMm} mm.` });
  }
  if (differenceMm.value >= clinicallyLargeMm) {
    reasons.push({ code: 'large', text: `${clinicallyLargeMm} mm or more: a clinician decides first.` });
  }
  return reasons;
}

interface Legs {
  readonly longer: LegInTurn;
  readonly shorter: LegInTurn;
}

function saddlesFor(
  input: LegLengthOptionsInput,
  shimMm: number,
  staggerMm: number,
  unmovedMm: number,
): LegLengthOption['saddles'] {
  const { rider, differenceMm } = input;
  const feet = {
    longer: { ...rider.leg, footLeverMm: rider.leg.footLeverMm - staggerMm / 2 },
    shorter: {
      ...rider.leg,
      footLeverMm: rider.leg.footLeverMm + staggerMm / 2,
      ankleAboveSpindleMm: rider.leg.ankleAboveSpindleMm + shimMm,
    },
  };
  const turns = {
    longer: ankleTurn(feet.longer, rider.footPitch),
    shorter: ankleTurn(feet.shorter, rider.footPitch),
  };
  /** Every setting of the saddle, for one difference between the legs. */
  const at = (difference: number): (Legs & { readonly heightMm: number })[] => {
    const legs = {
      longer: lengthened(feet.longer, input.carriedBy, difference / 2),
      shorter: lengthened(feet.shorter, input.carriedBy, -difference / 2),
    };
    requireLeg(legs.longer);
    requireLeg(legs.shorter);
    const longer = hipDistance(rider, turns.longer, legs.longer);
    const shorter = hipDistance(rider, turns.shorter, legs.shorter);
    const heights = { longer, shorter, between: (longer + shorter) / 2 };
    return saddleSettings.map((setFor) => {
      const hip = hipAt(rider, heights[setFor]);
      return {
        heightMm: heights[setFor],
        longer: inTurn(rider, turns.longer, legs.longer, hip),
        shorter: inTurn(rider, turns.shorter, legs.shorter, hip),
      };
    });
  };
  const found = at(differenceMm.value);
  const sds = standardDeviations(
    { difference: differenceMm.value },
    { difference: differenceMm.sd },
    ({ difference }) => at(difference).map(kneesApart),
  );
  return found.map(({ heightMm, longer, shorter }, i) => ({
    setFor: saddleSettings[i] as SaddleSetFor,
    saddleHeightChangeMm: heightMm - unmovedMm,
    longer,
    shorter,
    kneeDifferenceDeg: { value: kneesApart({ longer, shorter }), sd: sds[i] ?? 0 },
  }));
}

const kneesApart = ({ longer, shorter }: Legs): number => longer.kneeFlexionDeg - shorter.kneeFlexionDeg;

function lengthened(leg: Leg, carriedBy: LegLengthOptionsInput['carriedBy'], byMm: number): Leg {
  const thighShares = { thigh: 1, shank: 0, both: leg.thighMm / (leg.thighMm + leg.shankMm) };
  const thighShare = thighShares[carriedBy];
  return {
    ...leg,
    thighMm: leg.thighMm + thighShare * byMm,
    shankMm: leg.shankMm + (1 - thighShare) * byMm,
  };
}

function hipDistance(rider: RiderOnBike, turn: AnkleTurn, leg: Leg): number {
  const { minimumKneeFlexionDeg, seatTubeAngleDeg } = rider;
  return hipOverTurn(turn, leg, minimumKneeFlexionDeg, { kind: 'along-seat-tube', seatTubeAngleDeg })
    .hipDistanceMm;
}

function hipAt(rider: RiderOnBike, distanceMm: number): Point {
  const tube = radiansOf(rider.seatTubeAngleDeg);
  return { xMm: -distanceMm * Math.cos(tube), yMm: distanceMm * Math.sin(tube) };
}

function inTurn(rider: RiderOnBike, turn: AnkleTurn, leg: Leg, hip: Point): LegInTurn {
  const { kneeFlexionDeg, crankDeg } = straightestOverTurn(turn, leg, rider.footPitch, hip);
  return { kneeFlexionDeg, crankDeg };
}
