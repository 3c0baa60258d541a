import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';

/** What of a saddle decides where the rider ends up; level saddle. */
export interface SaddleShape {
  /** Tip to rear end. 150–350. */
  readonly lengthMm: number;
  /** Tip back to where the saddle is 80 mm wide, which is about where one sits. 50–250. */
  readonly tipTo80MmWidthMm: number;
  /** Middle of the rail at the clamp up to the top where the saddle is 80 mm wide. 20–90. */
  readonly railToTopMm: number;
}

/** Standard deviation of one careful reading with plumb line and tape. House rule. */
export const usualTapeErrorMm = 1;

/**
 * Setback of the 80 mm wide place from that of the tip.
 *
 * @param tipSetbackMm tip behind the bottom bracket, negative = in front. −200–300
 * @param tapeErrorMm standard deviation of each of the two readings. 0–20
 * @throws FitMathError naming the input outside its range
 * @source sum of two readings; 80 mm as the reference width: common practice, no source
 * @check src/setback/setback: swapped back
 * @tolerance 1e-9 mm
 * @example widthPointSetback(55, { lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45 }).value; // 195
 */
export function widthPointSetback(
  tipSetbackMm: number,
  saddle: SaddleShape,
  tapeErrorMm = usualTapeErrorMm,
): Uncertain {
  requireRange('tipSetbackMm', tipSetbackMm, -200, 300);
  requireSaddleShape('saddle', saddle);
  requireRange('tapeErrorMm', tapeErrorMm, 0, 20);
  return { value: tipSetbackMm + saddle.tipTo80MmWidthMm, sd: tapeErrorMm * Math.SQRT2 };
}

export interface SaddleSwap {
  readonly formulaVersion: string;
  /** Where the other saddle's tip goes, behind the bottom bracket. */
  readonly tipSetbackMm: Uncertain;
  /** How far the rails must come up; negative = down. */
  readonly railHeightChangeMm: Uncertain;
}

/**
 * Where another saddle goes so that the rider sits where the rider sat: the 80 mm wide place keeps its setback and
 * its height.
 *
 * @param tipSetbackMm of the saddle ridden now. −200–300
 * @param tapeErrorMm standard deviation of each reading. 0–20
 * @throws FitMathError naming the input outside its range
 * @source common practice, no source
 * @check src/setback/setback: swapped back
 * @tolerance 1e-9 mm
 * @example swapSaddle(55, { lengthMm: 275, tipTo80MmWidthMm: 145, railToTopMm: 45 }, { lengthMm: 245,
 *   tipTo80MmWidthMm: 110, railToTopMm: 48 }).tipSetbackMm.value; // 90
 */
export function swapSaddle(
  tipSetbackMm: number,
  now: SaddleShape,
  other: SaddleShape,
  tapeErrorMm = usualTapeErrorMm,
): SaddleSwap {
  requireRange('tipSetbackMm', tipSetbackMm, -200, 300);
  requireSaddleShape('now', now);
  requireSaddleShape('other', other);
  requireRange('tapeErrorMm', tapeErrorMm, 0, 20);
  return {
    formulaVersion,
    tipSetbackMm: {
      value: tipSetbackMm + now.tipTo80MmWidthMm - other.tipTo80MmWidthMm,
      sd: tapeErrorMm * Math.sqrt(3),
    },
    railHeightChangeMm: {
      value: now.railToTopMm - other.railToTopMm,
      sd: tapeErrorMm * Math.SQRT2,
    },
  };
}

/** @throws FitMathError naming the first measure outside its range */
export function requireSaddleShape(field: string, saddle: SaddleShape): void {
  requireRange(`${field}.lengthMm`, saddle.lengthMm, 150, 350);
  requireRange(`${field}.tipTo80MmWidthMm`, saddle.tipTo80MmWidthMm, 50, Math.min(250, saddle.lengthMm));
  requireRange(`${field}.railToTopMm`, saddle.railToTopMm, 20, 90);
}
