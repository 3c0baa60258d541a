import type { OutcomeSummary } from '@studio/database';
import type { OutcomeInputs, PositionFacts, Report } from './outcome-inputs.js';

export type Outcome = Pick<
  OutcomeSummary,
  | 'painBefore'
  | 'painAfter'
  | 'comfortBefore'
  | 'comfortAfter'
  | 'numbnessBefore'
  | 'numbnessAfter'
  | 'power20MinBeforeW'
  | 'power20MinAfterW'
  | 'saddleChangePredictedMm'
  | 'saddleOffsetMm'
  | 'saddleChangeLeftMm'
  | 'cleatMovedBackMm'
  | 'cleatShortOfMidfootMm'
  | 'footPitchDeg'
>;

/**
 * What a session led to: each measure before, and as last reported; the saddle change that was predicted beside the
 * one that was left; where the cleats went.
 */
export function outcomeOf({ baseline, answers, found, left, plans }: OutcomeInputs): Outcome {
  const last = <Key extends keyof Report>(key: Key): Report[Key] | null =>
    answers.findLast((answer) => answer[key] !== null)?.[key] ?? null;
  const change = (figure: keyof PositionFacts): number | null => {
    const before = found?.[figure] ?? null;
    const after = left?.[figure] ?? null;
    return before === null || after === null ? null : after - before;
  };
  return {
    painBefore: baseline?.pain ?? null,
    painAfter: last('pain'),
    comfortBefore: baseline?.comfort ?? null,
    comfortAfter: last('comfort'),
    numbnessBefore: baseline?.numbness ?? null,
    numbnessAfter: last('numbness'),
    power20MinBeforeW: baseline?.power20MinW ?? null,
    power20MinAfterW: last('power20MinW'),
    // There is one saddle for both feet.
    saddleChangePredictedMm: mean(
      plans.flatMap(({ saddleChangeMm }) => (saddleChangeMm === null ? [] : [saddleChangeMm.value])),
    ),
    saddleOffsetMm: mean(plans.map(({ saddleOffsetMm }) => saddleOffsetMm)) ?? 0,
    saddleChangeLeftMm: change('saddleHeightMm'),
    cleatMovedBackMm: meanOfAll([change('cleatBehindMth1LeftMm'), change('cleatBehindMth1RightMm')]),
    cleatShortOfMidfootMm: meanOfAll(
      plans.map(({ side, mth1FromHeelMm, midfootFromHeelMm }) => {
        const behindMm = side === 'left' ? left?.cleatBehindMth1LeftMm : left?.cleatBehindMth1RightMm;
        return behindMm == null ? null : mth1FromHeelMm - behindMm - midfootFromHeelMm;
      }),
    ),
    footPitchDeg: mean(plans.map(({ footPitchDeg }) => footPitchDeg)),
  };
}

export const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Null when one of them is not known: the mean of the others would be of something else. */
const meanOfAll = (values: readonly (number | null)[]): number | null =>
  values.includes(null) ? null : mean(values as readonly number[]);
