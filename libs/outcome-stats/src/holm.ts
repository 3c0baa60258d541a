import { spelledP } from './wording.js';

export interface Question {
  readonly question: string;
  /** 0–1. */
  readonly p: number;
}

export interface CorrectedQuestion extends Question {
  /** What remains of p when all questions are counted; below 0.05 is more than chance. */
  readonly correctedP: number;
}

export interface CorrectedQuestions {
  readonly method: 'Holm’s step-down correction';
  /** Questions asked at once. */
  readonly n: number;
  /** Questions asked that could not be tested; they count, as they were asked. */
  readonly missing: number;
  /** In the order given. */
  readonly questions: readonly CorrectedQuestion[];
  readonly sentence: string;
}

/**
 * Corrects p values for several questions asked at once, so that the chance of even one false finding stays 5 %.
 *
 * @param missing questions that were asked and could not be tested
 * @throws RangeError when a p is no chance
 * @source Holm 1979, Scand J Stat 6:65–70
 * @example holm([{ question: 'pain', p: 0.01 }, { question: 'comfort', p: 0.03 }], 0).questions; // 0.02, 0.03
 */
export function holm(questions: readonly Question[], missing: number): CorrectedQuestions {
  const asked = questions.length + missing;
  let largest = 0;
  const corrected = questions
    .map(({ p }, index) => {
      if (!(p >= 0 && p <= 1)) throw new RangeError('p must lie between 0 and 1');
      return { p, index };
    })
    .sort((a, b) => a.p - b.p)
    .reduce<number[]>((found, { p, index }, rank) => {
      largest = Math.max(largest, Math.min(1, p * (asked - rank)));
      found[index] = largest;
      return found;
    }, []);
  const results = questions.map((question, index) => ({ ...question, correctedP: corrected[index] ?? 1 }));
  const found = results.filter(({ correctedP }) => correctedP < 0.05);
  const told = found.map(({ question, correctedP }) => `${question} (${spelledP(correctedP)})`).join(', ');
  const sentence =
    found.length === 0
      ? `With ${asked} questions asked at once, none shows more than chance.`
      : `With ${asked} questions asked at once, more than chance remains for: ${told}.`;
  return {
    method: 'Holm’s step-down correction',
    n: questions.length,
    missing,
    questions: results,
    sentence,
  };
}
