import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';

/**
 * The racing rule on saddles, as data.
 *
 * Source: UCI regulations part 1, articles 1.3.013 (text in force from 1 January 2014) and 1.3.014 (clarification
 * guide of 23 April 2014), as quoted in public copies.
 */
export const racingSaddleRule = {
  body: 'UCI',
  edition: 'articles 1.3.013 in force from 2014-01-01 and 1.3.014 in the clarification guide of 2014-04-23',
  leastTipSetbackMm: 50,
  /** Sprint events on the track, and riders whose build asks for it. */
  leastTipSetbackWhenExemptMm: 0,
  saddleLengthMm: [240, 300],
  saddleLengthToleranceMm: 5,
  greatestTiltDeg: 9,
} as const;

export interface RacingSaddleInput {
  /** Tip behind the bottom bracket, negative = in front. −200–300. Null = not measured. */
  readonly tipSetbackMm: number | null;
  /** 150–350. Null = not measured. */
  readonly saddleLengthMm: number | null;
  /** Line over the highest points of front and rear to the horizontal, nose up positive. −45–45. Null = not measured. */
  readonly tiltDeg: number | null;
  /** A sprint event on the track, or the morphological exemption granted. Null = not known. */
  readonly tipExemption: boolean | null;
}

export type RuleResult = 'meets' | 'breaks' | 'cannot-tell';

export interface RacingSaddleCheck {
  readonly formulaVersion: string;
  readonly edition: string;
  readonly tipSetback: RuleResult;
  readonly saddleLength: RuleResult;
  readonly tilt: RuleResult;
  readonly cautions: readonly Caution[];
}

const otherEditions: Caution = {
  code: 'edition',
  text: 'Racing rules change: compare with the edition in force for the event before relying on this.',
};

/**
 * Hold a saddle's place to the racing rule. What was not measured is never called met.
 *
 * @throws FitMathError naming the input outside its range
 * @source UCI regulations 1.3.013 and 1.3.014, edition as in `racingSaddleRule`
 * @check outside/setback: at every limit of the articles
 * @tolerance exact
 * @example checkRacingSaddle({ tipSetbackMm: 48, saddleLengthMm: 270, tiltDeg: 0, tipExemption: false }).tipSetback;
 *   // 'breaks'
 */
export function checkRacingSaddle(input: RacingSaddleInput): RacingSaddleCheck {
  const { leastTipSetbackMm, leastTipSetbackWhenExemptMm, saddleLengthToleranceMm } = racingSaddleRule;
  const [shortestMm, longestMm] = racingSaddleRule.saddleLengthMm;
  return {
    formulaVersion,
    edition: racingSaddleRule.edition,
    tipSetback: judge('tipSetbackMm', input.tipSetbackMm, [-200, 300], (tipMm) => {
      if (tipMm >= leastTipSetbackMm) return 'meets';
      if (tipMm < leastTipSetbackWhenExemptMm) return 'breaks';
      if (input.tipExemption === null) return 'cannot-tell';
      return input.tipExemption ? 'meets' : 'breaks';
    }),
    saddleLength: judge('saddleLengthMm', input.saddleLengthMm, [150, 350], (lengthMm) =>
      lengthMm >= shortestMm - saddleLengthToleranceMm && lengthMm <= longestMm + saddleLengthToleranceMm
        ? 'meets'
        : 'breaks',
    ),
    tilt: judge('tiltDeg', input.tiltDeg, [-45, 45], (tiltDeg) =>
      Math.abs(tiltDeg) <= racingSaddleRule.greatestTiltDeg ? 'meets' : 'breaks',
    ),
    cautions: [otherEditions],
  };
}

function judge(
  field: string,
  value: number | null,
  [minimum, maximum]: readonly [number, number],
  rule: (value: number) => RuleResult,
): RuleResult {
  return value === null ? 'cannot-tell' : rule(requireRange(field, value, minimum, maximum));
}
