import { judgeChange, neededChange, outcomeMeasures, type ChangeVerdict } from '@studio/outcome-stats';
import type {
  ClientSummary,
  CoursePoint,
  JudgedMeasure,
  MeasureSummary,
  SaddleSummary,
} from './client-summary-shape.js';
import { summaryText } from './client-summary-text.js';
import { activitiesMean, mean, outcomeOf } from './outcome.js';
import { reportOf, type OutcomeInputs } from './outcome-inputs.js';

/** Raise it when the same inputs would give another summary. */
export const methodVersion = '2';

/** What can be told to a client: a pure function of its inputs, so the same inputs give the same summary. */
export function clientSummary(inputs: OutcomeInputs): ClientSummary {
  const outcome = outcomeOf(inputs);
  const measures = [
    judged('pain', outcome.painBefore, outcome.painAfter),
    judged('comfort', outcome.comfortBefore, outcome.comfortAfter),
    judged('power_20_min_w', outcome.power20MinBeforeW, outcome.power20MinAfterW),
    judged('chosen_activities', outcome.activitiesBefore, outcome.activitiesAfter),
    judged('global_change', 0, outcome.overallChange),
  ];
  const numbness = {
    before: outcome.numbnessBefore,
    after: outcome.numbnessAfter,
    verdict: judgedNumbness(outcome.numbnessBefore, outcome.numbnessAfter),
  };
  const { walkingComfort, sprintFeel, standingFeel } = outcome;
  const told = { walkingComfort, sprintFeel, standingFeel };
  const saddle = saddleSummary(inputs);
  const weeks = inputs.answers.at(-1)?.week ?? null;
  return {
    measures,
    numbness,
    told,
    saddle,
    course: courseOf(inputs),
    text: summaryText({ weeks, measures, numbness, told, saddle }),
  };
}

function courseOf({ baseline, activitiesBefore, answers }: OutcomeInputs): CoursePoint[] {
  const nothing = { pain: null, comfort: null, numbness: null, power20MinW: null };
  const before = {
    week: 0,
    ...(baseline ?? nothing),
    chosenActivities: mean(activitiesBefore),
    overallChange: 0,
  };
  return [
    ...(baseline || activitiesBefore.length > 0 ? [before] : []),
    ...answers.map((answer) => ({
      week: answer.week,
      ...reportOf(answer),
      chosenActivities: activitiesMean(answer),
      overallChange: answer.overallChange,
    })),
  ];
}

function judged(measure: JudgedMeasure, before: number | null, after: number | null): MeasureSummary {
  const about = outcomeMeasures[measure];
  const gettingBetter = before !== null && after !== null && (about.better === 'higher') === after > before;
  const needed = (threshold: (typeof about)['detectable' | 'important']): number | null =>
    threshold === null || before === null ? null : neededChange(threshold, before, gettingBetter);
  return {
    measure,
    before,
    after,
    change: before === null || after === null ? null : after - before,
    detectable: needed(about.detectable),
    important: needed(about.important),
    verdict: judgeChange(about, before, after),
  };
}

function judgedNumbness(before: boolean | null, after: boolean | null): ChangeVerdict {
  if (before === null || after === null) return 'cannot tell';
  if (before === after) return 'no real change';
  return after ? 'worse' : 'better';
}

function saddleSummary(inputs: OutcomeInputs): SaddleSummary | null {
  const { saddleChangePredictedMm, saddleOffsetMm, saddleChangeLeftMm } = outcomeOf(inputs);
  if (saddleChangePredictedMm === null || saddleChangeLeftMm === null) return null;
  const predictedMm = saddleChangePredictedMm + saddleOffsetMm;
  // The two sides share bike and rider, so averaging them is not counted as making the prediction surer.
  const sdMm = mean(inputs.plans.flatMap((plan) => plan.saddleChangeMm?.sd ?? [])) ?? 0;
  const differenceMm = saddleChangeLeftMm - predictedMm;
  return {
    predictedMm,
    sdMm,
    leftMm: saddleChangeLeftMm,
    differenceMm,
    asPredicted: Math.abs(differenceMm) <= 2 * sdMm,
  };
}
