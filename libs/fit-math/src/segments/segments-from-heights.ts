import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireLeg } from '../leg-chain/leg.js';
import { requireErrors, requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';
import type { LegSegments } from './leg-segments.js';

/** Landmarks of one leg: heights above the floor standing barefoot, and places along the sole of the shoe. */
export interface LandmarkHeights {
  /** Floor to greater trochanter. 500–1300. */
  readonly trochanterHeightMm: number;
  /** Floor to lateral femoral epicondyle. 250–800. */
  readonly kneeHeightMm: number;
  /** Floor to lateral malleolus. 30–150. */
  readonly malleolusHeightMm: number;
  /** Heel end of the shoe to below the lateral malleolus. 20–150. */
  readonly ankleFromHeelMm: number;
  /** Heel end of the shoe to the spindle's place on the cleat. 50–350. */
  readonly cleatFromHeelMm: number;
  /** Insole, sole, cleat and pedal: foot to spindle, sole level. 0–120. */
  readonly underFootMm: number;
}

/** House rule: standard deviation of one careful reading of each with tape or calliper. */
export const usualHeightErrors: LandmarkHeights = {
  trochanterHeightMm: 8,
  kneeHeightMm: 5,
  malleolusHeightMm: 3,
  ankleFromHeelMm: 4,
  cleatFromHeelMm: 1,
  underFootMm: 2,
};

const surfaceLandmarks: Caution = {
  code: 'surface-landmarks',
  text: 'Landmarks under the skin stand for the joint centres; another hip landmark shifts knee angles by 4 to 7° (Galindo-Martínez et al. 2024, J Appl Biomech 40(3):176–182).',
};

/**
 * Thigh, shank, foot lever and ankle height of one leg from what a tape reads.
 *
 * @returns mm; thigh trochanter to epicondyle, shank epicondyle to malleolus, lever cleat to below the malleolus, ankle
 *   above the spindle with the sole level
 * @throws FitMathError naming the reading outside its range, or the segment that readings out of order would give
 * @source differences of landmark heights, as in the landmark survey of Gordon et al. 2014, NATICK/TR-15/007; GUM,
 *   section 5.1.2
 * @check outside/segments: ANSUR II means of men and women
 * @tolerance 0.1 mm
 * @example segmentsFromHeights({ trochanterHeightMm: 900.6, kneeHeightMm: 491.6, malleolusHeightMm: 72.9,
 *   ankleFromHeelMm: 75, cleatFromHeelMm: 210, underFootMm: 42 }).thighMm; // { value: 409, sd: 9.43… }
 */
export function segmentsFromHeights(
  heights: LandmarkHeights,
  errors: LandmarkHeights = usualHeightErrors,
): LegSegments {
  requireRange('trochanterHeightMm', heights.trochanterHeightMm, 500, 1300);
  requireRange('kneeHeightMm', heights.kneeHeightMm, 250, 800);
  requireRange('malleolusHeightMm', heights.malleolusHeightMm, 30, 150);
  requireRange('ankleFromHeelMm', heights.ankleFromHeelMm, 20, 150);
  requireRange('cleatFromHeelMm', heights.cleatFromHeelMm, 50, 350);
  requireRange('underFootMm', heights.underFootMm, 0, 120);
  requireErrors('errors', errors, 100);
  const combined = (one: keyof LandmarkHeights, other: keyof LandmarkHeights, sign: 1 | -1): Uncertain => ({
    value: heights[one] + sign * heights[other],
    sd: Math.hypot(errors[one], errors[other]),
  });
  const segments = {
    thighMm: combined('trochanterHeightMm', 'kneeHeightMm', -1),
    shankMm: combined('kneeHeightMm', 'malleolusHeightMm', -1),
    footLeverMm: combined('cleatFromHeelMm', 'ankleFromHeelMm', -1),
    ankleAboveSpindleMm: combined('malleolusHeightMm', 'underFootMm', 1),
  };
  requireLeg({
    thighMm: segments.thighMm.value,
    shankMm: segments.shankMm.value,
    footLeverMm: segments.footLeverMm.value,
    ankleAboveSpindleMm: segments.ankleAboveSpindleMm.value,
    crankLengthMm: 170,
  });
  return { formulaVersion, origin: 'measured', ...segments, cautions: [surfaceLandmarks] };
}
