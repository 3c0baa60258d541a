import type { OutcomeSummary } from '@studio/database';
import type { OutcomeInputs, Report } from './outcome-inputs.js';

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
  const behind = left && { left: left.cleatBehindMth1LeftMm, right: left.cleatBehindMth1RightMm };
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
    saddleChangeLeftMm: found && left && left.saddleHeightMm - found.saddleHeightMm,
    cleatMovedBackMm:
      found &&
      left &&
      (left.cleatBehindMth1LeftMm -
        found.cleatBehindMth1LeftMm +
        left.cleatBehindMth1RightMm -
        found.cleatBehindMth1RightMm) /
        2,
    cleatShortOfMidfootMm:
      behind &&
      mean(
        plans.map(
          ({ side, mth1FromHeelMm, midfootFromHeelMm }) => mth1FromHeelMm - behind[side] - midfootFromHeelMm,
        ),
      ),
    footPitchDeg: mean(plans.map(({ footPitchDeg }) => footPitchDeg)),
  };
}

export const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
