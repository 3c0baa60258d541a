import {
  hodgesLehmann,
  judgeChange,
  missingAnswersSensitivity,
  outcomeMeasures,
  pairedMeanChange,
  responders,
  wilcoxonSignedRank,
  type Pair,
} from '@studio/outcome-stats';
import { distributionOf } from './distribution.js';
import type {
  Measure,
  MeasureChangeResponse,
  MeasureMissingBecauseResponse,
  MissingBecauseResponse,
  RespondersResponse,
  SensitivityResponse,
} from './review.dto.js';
import type { ReviewedSession } from './review.queries.js';

const valuesOf: Readonly<
  Record<Measure, (session: ReviewedSession) => readonly [number | null, number | null]>
> = {
  pain: (session) => [session.painBefore, session.painAfter],
  comfort: (session) => [session.comfortBefore, session.comfortAfter],
  power_20_min_w: (session) => [session.power20MinBeforeW, session.power20MinAfterW],
  chosen_activities: (session) => [session.activitiesBefore, session.activitiesAfter],
  // Told against before the fit, so before is 0.
  global_change: (session) => [0, session.overallChange],
  saddle_change_left_minus_predicted_mm: (session) => [
    session.saddleChangePredictedMm,
    session.saddleChangeLeftMm,
  ],
};

/** Measures of which more is better, or less. */
const judged = {
  pain: outcomeMeasures.pain,
  comfort: outcomeMeasures.comfort,
  power_20_min_w: outcomeMeasures.power_20_min_w,
  chosen_activities: outcomeMeasures.chosen_activities,
  global_change: outcomeMeasures.global_change,
  saddle_change_left_minus_predicted_mm: null,
} as const;

export function pairsOf(measure: Measure, sessions: readonly ReviewedSession[]): Pair[] {
  return sessions.flatMap((session): Pair[] => {
    const [before, after] = valuesOf[measure](session);
    return before === null || after === null ? [] : [{ before, after }];
  });
}

/** One measure of the group, before and after. `correctedP` is filled in by who asks about several. */
export function measureChange(measure: Measure, sessions: readonly ReviewedSession[]): MeasureChangeResponse {
  const pairs = pairsOf(measure, sessions);
  const missing = sessions.length - pairs.length;
  const typical = hodgesLehmann(pairs, missing);
  const asked = judged[measure] !== null;
  const { method, pTwoSided } = wilcoxonSignedRank(pairs, missing);
  return {
    measure,
    ...pairedMeanChange(pairs, missing),
    missingBecause: measureMissingBecause(measure, sessions),
    before: distributionOf(pairs.map(({ before }) => before)),
    after: distributionOf(pairs.map(({ after }) => after)),
    change: distributionOf(pairs.map(({ before, after }) => after - before)),
    typicalChange: {
      method: typical.method,
      medianChange: typical.medianChange,
      interval95: typical.interval95,
      sentence: typical.sentence,
    },
    test: asked ? { method, p: pTwoSided, correctedP: null } : null,
    responders: respondersOf(measure, pairs, missing),
    ifMissingHadAnswered: sensitivityOf(measure, pairs, sessions),
  };
}

function respondersOf(measure: Measure, pairs: readonly Pair[], missing: number): RespondersResponse | null {
  const about = judged[measure];
  if (about === null) return null;
  const verdicts = pairs.map(({ before, after }) => judgeChange(about, before, after));
  const count = (verdict: (typeof verdicts)[number]): number =>
    verdicts.filter((item) => item === verdict).length;
  const better = count('better');
  const found = responders(better, pairs.length, missing);
  return {
    better,
    noRealChange: count('no real change'),
    worse: count('worse'),
    shareBetter: found.ofAnswered?.share ?? null,
    interval95: found.ofAnswered?.interval95 ?? null,
    shareAtWorst: found.worstCase?.share ?? null,
    shareAtBest: found.bestCase?.share ?? null,
    sentence: found.sentence,
  };
}

function sensitivityOf(
  measure: Measure,
  pairs: readonly Pair[],
  sessions: readonly ReviewedSession[],
): SensitivityResponse | null {
  const about = judged[measure];
  if (about?.scale == null) return null;
  const unanswered = sessions.flatMap((session) => {
    const [before, after] = valuesOf[measure](session);
    return before === null || after === null ? [{ before, lastKnown: after }] : [];
  });
  const { robust, sentence } = missingAnswersSensitivity(pairs, unanswered, about.scale, about.better);
  return { robust, sentence };
}

/** Sessions nobody answered for, by reason. */
export function missingBecause(sessions: readonly ReviewedSession[]): MissingBecauseResponse {
  const count = (state: ReviewedSession['answerState']): number =>
    sessions.filter(({ answerState }) => answerState === state).length;
  return {
    noAnswer: count('asked'),
    couldNotBeAsked: count('not_asked'),
    notAskedYet: count('waiting'),
  };
}

function measureMissingBecause(
  measure: Measure,
  sessions: readonly ReviewedSession[],
): MeasureMissingBecauseResponse {
  const without = sessions.filter((session) => valuesOf[measure](session).includes(null));
  const answered = without.filter(({ answerState }) => answerState === 'answered');
  const notGiven = answered.filter((session) => valuesOf[measure](session)[1] === null).length;
  return { ...missingBecause(without), notGiven, noValueBefore: answered.length - notGiven };
}
