import { pairedMeanChange, type Pair } from '@studio/outcome-stats';
import type { Measure, OutcomeResponse, OutcomeReviewResponse } from './outcomes.dto.js';

const valuesOf: Readonly<
  Record<Measure, (outcome: OutcomeResponse) => readonly [number | null, number | null]>
> = {
  pain: (outcome) => [outcome.painBefore, outcome.painAfter],
  comfort: (outcome) => [outcome.comfortBefore, outcome.comfortAfter],
  power_20_min_w: (outcome) => [outcome.power20MinBeforeW, outcome.power20MinAfterW],
  saddle_change_left_minus_predicted_mm: (outcome) => [
    outcome.saddleChangePredictedMm,
    outcome.saddleChangeLeftMm,
  ],
};

/**
 * What changed across clients. Everyone whose follow-up came due belongs to the group; who did not answer, or not
 * this, is counted as missing.
 *
 * @param sessions size of the group
 * @param outcomes of those who answered
 */
export function review(sessions: number, outcomes: readonly OutcomeResponse[]): OutcomeReviewResponse {
  const answered = outcomes.length;
  return {
    sessions,
    answered,
    missing: sessions - answered,
    measures: (Object.keys(valuesOf) as Measure[]).map((measure) => {
      const pairs = outcomes.flatMap((outcome): Pair[] => {
        const [before, after] = valuesOf[measure](outcome);
        return before === null || after === null ? [] : [{ before, after }];
      });
      return { measure, ...pairedMeanChange(pairs, sessions - pairs.length) };
    }),
    numbness: numbness(sessions, outcomes),
  };
}

function numbness(sessions: number, outcomes: readonly OutcomeResponse[]): OutcomeReviewResponse['numbness'] {
  const known = outcomes.filter(
    ({ numbnessBefore, numbnessAfter }) => numbnessBefore !== null && numbnessAfter !== null,
  );
  const count = (before: boolean, after: boolean): number =>
    known.filter(({ numbnessBefore, numbnessAfter }) => numbnessBefore === before && numbnessAfter === after)
      .length;
  return {
    n: known.length,
    missing: sessions - known.length,
    gone: count(true, false),
    stayed: count(true, true),
    appeared: count(false, true),
    never: count(false, false),
  };
}
