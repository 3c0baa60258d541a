import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';
import { legLengthMethods, type LegLengthMethod } from './leg-length-methods.js';

/** As the fitter judged it. */
export type LegLengthNature = 'structural' | 'functional' | 'not-judged';

export interface LegLengthInput {
  readonly method: LegLengthMethod['id'];
  /** 1–5 readings of left less right: positive = left longer. Each −100–100. */
  readonly readingsMm: readonly number[];
  readonly nature: LegLengthNature;
  /** New, or changed lately, or after an injury or operation. Null = not asked. */
  readonly newOrChanged: boolean | null;
  /** Pain or complaints in back, hip, knee or leg. Null = not asked. */
  readonly complaints: boolean | null;
}

export interface LegLengthJudgement {
  readonly formulaVersion: string;
  /** Positive = left longer. */
  readonly differenceMm: Uncertain;
  /** Whether the difference is more than what measuring an even pair of legs would give in 19 of 20. */
  readonly beyondError: boolean;
  readonly longerSide: 'left' | 'right' | 'cannot-tell';
  /** Why a clinician should see it first; empty when nothing known asks for it. */
  readonly referTo: readonly Caution[];
  readonly cautions: readonly Caution[];
}

/** Not of consequence for most people below about this. Knutson 2005, Chiropr Osteopat 13:11. */
export const clinicallyLargeMm = 20;

const withinError: Caution = {
  code: 'within-error',
  text: 'Not more than the method’s own error: no difference has been shown, and none has been ruled out.',
};
const common: Caution = {
  code: 'small-difference-common',
  text: 'Nine in ten people have a difference, 5.2 mm on average (Knutson 2005): a small one by itself explains little.',
};

/**
 * What a measured leg-length difference is worth: beyond its error or not, which side, and whether a clinician sees it
 * before anything is put under a foot. It screens and never diagnoses.
 *
 * The error is the method's, or that of the mean of the readings where these scatter more. Repeats do not make the
 * method's own error smaller: much of it is the same in every reading.
 *
 * @throws FitMathError naming the reading outside its range
 * @source Knutson 2005, Chiropr Osteopat 13:11; methods as in `legLengthMethods`
 * @check outside/leg-length: Knutson 2005, Jamaluddin et al. 2011, J Rheumatol 2014
 * @tolerance 0.05 mm
 * @example judgeLegLength({ method: 'tape', readingsMm: [7, 9], nature: 'structural', newOrChanged: false,
 *   complaints: false }).longerSide; // 'left'
 */
export function judgeLegLength(input: LegLengthInput): LegLengthJudgement {
  const { readingsMm, nature } = input;
  requireRange('readingsMm.length', readingsMm.length, 1, 5);
  readingsMm.forEach((reading, index) => requireRange(`readingsMm.${index}`, reading, -100, 100));
  const { sdMm } = legLengthMethod(input.method);
  const value = readingsMm.reduce((sum, reading) => sum + reading, 0) / readingsMm.length;
  const differenceMm = { value, sd: Math.max(sdMm, errorOfMean(readingsMm, value)) };
  const beyondError = Math.abs(value) > 1.96 * differenceMm.sd;
  return {
    formulaVersion,
    differenceMm,
    beyondError,
    longerSide: beyondError ? (value > 0 ? 'left' : 'right') : 'cannot-tell',
    referTo: referrals(input, value),
    cautions: [
      ...(beyondError ? [] : [withinError]),
      ...(Math.abs(value) < clinicallyLargeMm ? [common] : []),
      ...(nature === 'not-judged' ? [notJudged] : []),
      ...(input.newOrChanged === null || input.complaints === null ? [notAsked] : []),
    ],
  };
}

export function legLengthMethod(id: LegLengthMethod['id']): LegLengthMethod {
  return legLengthMethods.find((method) => method.id === id) as LegLengthMethod;
}

const notJudged: Caution = {
  code: 'nature-not-judged',
  text: 'Structural or functional has not been judged: nothing goes under the foot before that.',
};
const notAsked: Caution = {
  code: 'not-asked',
  text: 'Whether it is new or comes with complaints has not been asked. That is no reassurance.',
};

function referrals({ nature, newOrChanged, complaints }: LegLengthInput, differenceMm: number): Caution[] {
  const reasons: Caution[] = [];
  if (Math.abs(differenceMm) >= clinicallyLargeMm) {
    reasons.push({ code: 'large', text: `${clinicallyLargeMm} mm or more: have it seen and imaged.` });
  }
  if (newOrChanged) reasons.push({ code: 'new', text: 'New or changed lately: have the cause found.' });
  if (complaints) reasons.push({ code: 'complaints', text: 'Comes with complaints: have them seen first.' });
  if (nature === 'functional') {
    reasons.push({ code: 'functional', text: 'Judged functional: what causes it is treated, not shimmed.' });
  }
  return reasons;
}

function errorOfMean(readings: readonly number[], mean: number): number {
  if (readings.length < 2) return 0;
  const squares = readings.reduce((sum, reading) => sum + (reading - mean) ** 2, 0);
  return Math.sqrt(squares / (readings.length - 1) / readings.length);
}
