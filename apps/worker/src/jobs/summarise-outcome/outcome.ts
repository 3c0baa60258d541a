import type { CleatPlan } from '@studio/fit-math';

export interface Report {
  readonly pain: number | null;
  readonly comfort: number | null;
  readonly numbness: boolean | null;
  readonly power20MinW: number | null;
}

export interface OutcomeInputs {
  readonly baseline: Report | null;
  /** Answered follow-ups, oldest first. */
  readonly answers: readonly Report[];
  readonly saddleFoundMm: number | null;
  readonly saddleLeftMm: number | null;
  readonly plans: readonly { readonly result: CleatPlan; readonly chosenOption: string | null }[];
}

export interface Outcome {
  readonly painBefore: number | null;
  readonly painAfter: number | null;
  readonly comfortBefore: number | null;
  readonly comfortAfter: number | null;
  readonly numbnessBefore: boolean | null;
  readonly numbnessAfter: boolean | null;
  readonly power20MinBeforeW: number | null;
  readonly power20MinAfterW: number | null;
  readonly saddleChangePredictedMm: number | null;
  readonly saddleChangeLeftMm: number | null;
}

/**
 * What a session led to: each measure before, and as last reported; the saddle change that was predicted beside the
 * one that was left.
 */
export function outcomeOf(inputs: OutcomeInputs): Outcome {
  const { baseline, answers, saddleFoundMm, saddleLeftMm } = inputs;
  const last = <Key extends keyof Report>(key: Key): Report[Key] | null =>
    answers.findLast((answer) => answer[key] !== null)?.[key] ?? null;
  return {
    painBefore: baseline?.pain ?? null,
    painAfter: last('pain'),
    comfortBefore: baseline?.comfort ?? null,
    comfortAfter: last('comfort'),
    numbnessBefore: baseline?.numbness ?? null,
    numbnessAfter: last('numbness'),
    power20MinBeforeW: baseline?.power20MinW ?? null,
    power20MinAfterW: last('power20MinW'),
    saddleChangePredictedMm: predictedSaddleChange(inputs.plans),
    saddleChangeLeftMm: saddleFoundMm === null || saddleLeftMm === null ? null : saddleLeftMm - saddleFoundMm,
  };
}

/** Mean over the feet for which an option was chosen: there is one saddle for both. */
function predictedSaddleChange(plans: OutcomeInputs['plans']): number | null {
  const changes = plans.flatMap(({ result, chosenOption }) =>
    result.options
      .filter(({ way }) => way === chosenOption)
      .map((option) => option.saddleHeightChangeMm.value),
  );
  return changes.length === 0 ? null : changes.reduce((sum, change) => sum + change, 0) / changes.length;
}
