import type { Caution } from '../cautions.js';
import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import {
  rearwardCleatRules,
  suitabilityQuestions,
  type SuitabilityQuestion,
  type SuitabilityRule,
} from './rearward-cleat-rules.js';

/** True, false, or null for not asked or not known. */
export type SuitabilityAnswers = Readonly<Record<SuitabilityQuestion, boolean | null>>;

export interface SuitabilityFinding extends SuitabilityRule {
  readonly result: 'applies' | 'does-not-apply' | 'cannot-tell';
  /** The questions still open when it cannot be told. */
  readonly open: readonly SuitabilityQuestion[];
}

export interface Suitability {
  readonly formulaVersion: string;
  readonly findings: readonly SuitabilityFinding[];
  readonly cautions: readonly Caution[];
}

const noVerdict: Caution = {
  code: 'no-verdict',
  text: 'What speaks for and against, each with its evidence. It is not added up: rider and fitter decide.',
};
const screenFirst: Caution = {
  code: 'screen-first',
  text: 'Forefoot numbness that persists must be screened for causes that need a clinician before a cleat is moved for it.',
};
const openQuestions: Caution = {
  code: 'open-questions',
  text: 'Some answers are missing. What cannot be told is no reassurance.',
};

/**
 * What a cleat far back would serve and cost this rider. Never a verdict, never a sum: each rule stands with its
 * evidence, and a missing answer is `cannot-tell`.
 *
 * @throws FitMathError naming an answer that is neither true, false nor null
 * @source the rules' own sources
 * @check src/suitability/suitability: every rule by every answer
 * @tolerance exact
 * @example
 * rearwardCleatSuitability({
 *   steadyLongEfforts: true,
 *   timeTrial: false,
 *   runsAfterRiding: null,
 *   forefootNumbnessPersists: false,
 *   forefootNumbnessScreened: null,
 *   largeSideDifference: false,
 *   surgingBunchRacing: true,
 *   standsOften: false,
 *   walksInTheShoes: false,
 *   twistyOrSlowRiding: false,
 * }).findings.filter(({ result }) => result === 'applies').map(({ id }) => id);
 * // ['steady-effort-calf', 'steady-effort-oxygen', 'surging']
 */
export function rearwardCleatSuitability(answers: SuitabilityAnswers): Suitability {
  for (const question of Object.keys(suitabilityQuestions) as SuitabilityQuestion[]) {
    const answer: unknown = answers[question];
    if (answer !== null && typeof answer !== 'boolean') {
      throw new FitMathError('input.out-of-range', question, 'true, false, or null when not known');
    }
  }
  const findings = rearwardCleatRules.map((rule): SuitabilityFinding => {
    const open = rule.when.filter((question) => answers[question] === null);
    if (rule.when.some((question) => answers[question] === false)) {
      return { ...rule, result: 'does-not-apply', open: [] };
    }
    return { ...rule, result: open.length > 0 ? 'cannot-tell' : 'applies', open };
  });
  const numbUnscreened =
    answers.forefootNumbnessPersists !== false && answers.forefootNumbnessScreened !== true;
  return {
    formulaVersion,
    findings,
    cautions: [
      noVerdict,
      ...(numbUnscreened ? [screenFirst] : []),
      ...(findings.some(({ result }) => result === 'cannot-tell') ? [openQuestions] : []),
    ],
  };
}
