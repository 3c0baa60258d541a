import type { OutcomeSummary } from '@studio/database';
import type { Answer, OutcomeInputs, PositionFacts } from './outcome-inputs.js';

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
  | 'activitiesBefore'
  | 'activitiesAfter'
  | 'overallChange'
  | 'walkingComfort'
  | 'sprintFeel'
  | 'standingFeel'
  | 'crankChangeMm'
  | 'legLengthOption'
>;

/**
 * What a session led to: each measure before, and as last reported; the saddle change that was predicted beside the
 * one that was left; where the cleats went.
 */
export function outcomeOf(inputs: OutcomeInputs): Outcome {
  const { baseline, answers, found, left, plans, legLengthOption } = inputs;
  const last = <Key extends keyof Answer>(key: Key): Answer[Key] | null =>
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
    ...activities(inputs),
    overallChange: last('overallChange'),
    walkingComfort: last('walkingComfort'),
    sprintFeel: last('sprintFeel'),
    standingFeel: last('standingFeel'),
    crankChangeMm: change('crankLengthMm'),
    legLengthOption,
  };
}

/** Means of what was told both times: an activity left out of one of them would shift the other. */
function activities(inputs: OutcomeInputs): Pick<Outcome, 'activitiesBefore' | 'activitiesAfter'> {
  const last = inputs.answers.findLast((answer) => activitiesMean(answer) !== null);
  const before = inputs.activitiesBefore.filter((_, at) => !last || last.activities[at] != null);
  return { activitiesBefore: mean(before), activitiesAfter: last ? activitiesMean(last) : null };
}

export const activitiesMean = ({ activities: told }: Pick<Answer, 'activities'>): number | null =>
  mean(told.filter((ability) => ability !== null));

export const mean = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

/** Null when one of them is not known: the mean of the others would be of something else. */
const meanOfAll = (values: readonly (number | null)[]): number | null =>
  values.includes(null) ? null : mean(values as readonly number[]);
