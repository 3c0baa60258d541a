import type { Interval } from '@studio/outcome-stats';
import type { FeelResponse, MeasureChangeResponse, OutcomeReviewResponse } from './review.dto.js';
import { fewestShown, hideSmallCounts } from './small-cells.js';

/** One number of a review, as it may leave the house. */
export interface ReviewRow {
  readonly section: string;
  readonly measure: string;
  readonly statistic: string;
  /** People it rests on. */
  readonly n: number | null;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Left out because it speaks of fewer than five people, or would let such a number be worked out. */
  readonly hidden: boolean;
  readonly words: string;
}

type Told = Partial<Pick<ReviewRow, 'low' | 'high' | 'words'>> & { n: number };

/** Every number of a review in a row of its own, small cells hidden. Least and most are single people's: left out. */
export function reviewTable(review: OutcomeReviewResponse): ReviewRow[] {
  const { sessions, answered, missing, earlierSessions, missingBecause } = review;
  const { numbness, sprint, standing, walkingComfort, power, comparison } = review;
  const small = sessions < fewestShown;
  const count = (statistic: string, value: number): ReviewRow =>
    rowOf('group', '', statistic, small ? null : value, { n: small ? null : sessions }, small);
  return [
    count('sessions', sessions),
    count('answered', answered),
    count('missing', missing),
    count('earlier_sessions', earlierSessions),
    ...counts('missing', '', small, {
      no_answer: missingBecause.noAnswer,
      could_not_be_asked: missingBecause.couldNotBeAsked,
      not_asked_yet: missingBecause.notAskedYet,
    }),
    ...review.measures.flatMap(measureRows),
    ...counts('numb_feet', 'numb_feet', numbness.n < fewestShown, {
      gone: numbness.gone,
      stayed: numbness.stayed,
      appeared: numbness.appeared,
      never: numbness.never,
    }),
    ...feelRows('sprint', sprint),
    ...feelRows('out_of_the_saddle', standing),
    ...(['mean', 'lowerQuartile', 'median', 'upperQuartile'] as const).map((statistic) =>
      result(
        'walking',
        'walking_comfort',
        `after_${snake(statistic)}`,
        walkingComfort.after?.[statistic] ?? null,
        {
          n: walkingComfort.n,
          ...(statistic === 'mean' && { words: walkingComfort.sentence }),
        },
      ),
    ),
    ...[
      result('power', 'power_20_min_w', 'mean_change_percent', power.meanChangePercent, {
        n: power.n,
        ...ends(power.interval95Percent),
        words: power.answer,
      }),
      result('power', 'power_20_min_w', 'lower_bound_95_percent', power.lowerBound95Percent, { n: power.n }),
      result('power', 'power_20_min_w', 'upper_bound_95_percent', power.upperBound95Percent, { n: power.n }),
      result('power', 'power_20_min_w', 'margin_percent', power.marginPercent, { n: power.n }),
    ],
    ...(comparison?.measures ?? []).map(({ measure, n, othersN, difference, interval95, sentence }) =>
      result('comparison_not_randomised', measure, 'difference_of_mean_changes', difference, {
        n: Math.min(n, othersN),
        ...ends(interval95),
        words: sentence,
      }),
    ),
  ];
}

function measureRows(change: MeasureChangeResponse): ReviewRow[] {
  const { measure, n, typicalChange, test, responders } = change;
  const row = (statistic: string, value: number | null, told: Omit<Told, 'n'> = {}): ReviewRow =>
    result('measures', measure, statistic, value, { n, ...told });
  const spread = (['before', 'after', 'change'] as const).flatMap((when) => [
    ...(when === 'change' ? [] : [row(`${when}_mean`, change[when]?.mean ?? null)]),
    row(`${when}_standard_deviation`, change[when]?.standardDeviation ?? null),
    row(`${when}_lower_quartile`, change[when]?.lowerQuartile ?? null),
    row(`${when}_median`, change[when]?.median ?? null),
    row(`${when}_upper_quartile`, change[when]?.upperQuartile ?? null),
  ]);
  return [
    row('mean_change', change.meanChange, { ...ends(change.interval95), words: change.sentence }),
    row('typical_change', typicalChange.medianChange, {
      ...ends(typicalChange.interval95),
      words: typicalChange.sentence,
    }),
    ...spread,
    ...(test === null ? [] : [row('p', test.p), row('p_corrected', test.correctedP)]),
    ...(responders === null
      ? []
      : [
          ...counts('responders', measure, n < fewestShown, {
            better: responders.better,
            no_real_change: responders.noRealChange,
            worse: responders.worse,
          }),
          shareRow(measure, n, responders),
        ]),
    ...counts('missing', measure, false, {
      no_answer: change.missingBecause.noAnswer,
      could_not_be_asked: change.missingBecause.couldNotBeAsked,
      not_asked_yet: change.missingBecause.notAskedYet,
      not_given: change.missingBecause.notGiven,
      no_value_before: change.missingBecause.noValueBefore,
    }),
  ];
}

function feelRows(measure: string, feel: FeelResponse): ReviewRow[] {
  const { n, muchBetter, better, same, worse, muchWorse, notTried, missing } = feel;
  const few = n < fewestShown;
  const told = counts('feel', measure, few, {
    much_better: muchBetter,
    better,
    same,
    worse,
    much_worse: muchWorse,
    not_tried: notTried,
    not_told: missing,
  });
  // A share and the sentence tell counts, so they are hidden with any of them.
  const hides = few || told.some(({ hidden }) => hidden);
  const share = (statistic: string, value: number | null, interval: Interval | null, words = ''): ReviewRow =>
    hides
      ? rowOf('feel', measure, statistic, null, {}, true)
      : result('feel', measure, statistic, value, { n, ...ends(interval), words });
  return [
    ...told,
    share('share_better', feel.shareBetter, feel.betterInterval95, feel.sentence),
    share('share_worse', feel.shareWorse, feel.worseInterval95),
  ];
}

const snake = (name: string): string => name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

/** A share tells the count it comes from, so it is hidden with it. */
function shareRow(
  measure: string,
  n: number,
  responders: NonNullable<MeasureChangeResponse['responders']>,
): ReviewRow {
  const { better, noRealChange, worse, shareBetter, interval95, sentence } = responders;
  const [shown] = hideSmallCounts([better, noRealChange, worse]);
  const told = { n, ...ends(interval95), words: sentence };
  return shown === null || n < fewestShown
    ? rowOf('responders', measure, 'share_better', null, { n: n < fewestShown ? null : n }, true)
    : result('responders', measure, 'share_better', shareBetter, told);
}

/** Counts that add up. */
function counts(
  section: string,
  measure: string,
  small: boolean,
  named: Readonly<Record<string, number>>,
): ReviewRow[] {
  const shown = hideSmallCounts(Object.values(named));
  const n = Object.values(named).reduce((sum, value) => sum + value, 0);
  return Object.keys(named).map((statistic, index) => {
    const value = small ? null : (shown[index] ?? null);
    return rowOf(section, measure, statistic, value, { n: small ? null : n }, value === null);
  });
}

/** A result of a group of people; hidden when they are few. */
function result(
  section: string,
  measure: string,
  statistic: string,
  value: number | null,
  told: Told,
): ReviewRow {
  if (told.n > 0 && told.n < fewestShown) return rowOf(section, measure, statistic, null, { n: null }, true);
  return rowOf(section, measure, statistic, value, told, false);
}

function rowOf(
  section: string,
  measure: string,
  statistic: string,
  value: number | null,
  told: Partial<Pick<ReviewRow, 'low' | 'high' | 'words' | 'n'>>,
  hidden: boolean,
): ReviewRow {
  const { n = null, low = null, high = null, words = '' } = told;
  return { section, measure, statistic, n, value, low, high, hidden, words };
}

const ends = (
  interval: { low: number; high: number } | null,
): { low: number | null; high: number | null } => ({
  low: interval?.low ?? null,
  high: interval?.high ?? null,
});
