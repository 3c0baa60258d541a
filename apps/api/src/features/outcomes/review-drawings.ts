import {
  answerFunnel,
  changeDistribution,
  measureForest,
  pairedSlopes,
  type Drawing,
  type FunnelStage,
} from '@studio/drawings';
import { judgeChange, neededChange, outcomeMeasures, type Pair } from '@studio/outcome-stats';
import { DrawingResponse } from './drawing.dto.js';
import { pairsOf } from './measure-change.js';
import type { MeasureChangeResponse, OutcomeReviewResponse } from './review.dto.js';
import type { ReviewedSession } from './review.queries.js';

const drawnMeasures = {
  pain: { name: 'Pain on the bike', unit: 'of 10' },
  comfort: { name: 'Comfort on the bike', unit: 'of 100' },
  power_20_min_w: { name: '20-minute power', unit: 'W' },
  chosen_activities: { name: 'What the riders named', unit: 'of 10' },
  global_change: { name: 'All in all, −5 to +5', unit: 'points' },
} as const;
/** Asked of everybody before and after. */
const askedOfAll = ['pain', 'comfort', 'power_20_min_w'] as const;
export type DrawnMeasure = keyof typeof drawnMeasures;
const drawn = Object.keys(drawnMeasures) as DrawnMeasure[];

/** Everything a review can show: who answered, what changed, and for each measure everybody's change. */
export function reviewDrawings(
  review: OutcomeReviewResponse,
  sessions: readonly ReviewedSession[],
): DrawingResponse[] {
  return [
    DrawingResponse.of('funnel', funnelOf(review, sessions)),
    DrawingResponse.of('forest', forestOf(review)),
    ...drawn.flatMap((measure) => {
      const change = changeOf(review, measure);
      const pairs = pairsOf(measure, sessions);
      if (pairs.length === 0 || change.meanChange === null || change.before === null) return [];
      const { name, unit } = drawnMeasures[measure];
      const slopes = pairedSlopes({
        title: `${name}, before and after`,
        subtitle: review.group,
        unit,
        pairs: pairs.map((pair) => ({ ...pair, verdict: verdictOf(measure, pair) })),
      });
      const distribution = changeDistribution({
        title: `${name}, by how much it changed`,
        subtitle: review.group,
        unit,
        changes: pairs.map(({ before, after }) => after - before),
        bandHalfWidth: bandOf(measure, change.before.mean),
        meanChange: change.meanChange,
        interval95: change.interval95,
      });
      return [
        // All in all is told as a change: every line would begin at 0.
        ...(measure === 'global_change' ? [] : [DrawingResponse.of(`slopes_${measure}`, slopes)]),
        DrawingResponse.of(`distribution_${measure}`, distribution),
      ];
    }),
  ];
}

export function forestOf(review: OutcomeReviewResponse): Drawing {
  return measureForest({
    title: 'What changed on average',
    subtitle: review.group,
    rows: drawn.map((measure) => {
      const { n, meanChange, interval95, before } = changeOf(review, measure);
      const { better, important } = outcomeMeasures[measure];
      return {
        label: drawnMeasures[measure].name,
        unit: drawnMeasures[measure].unit,
        n,
        change: meanChange,
        interval95,
        better,
        important: neededChange(important, before?.mean ?? 1, false),
      };
    }),
  });
}

export function funnelOf(review: OutcomeReviewResponse, sessions: readonly ReviewedSession[]): Drawing {
  const { sessions: all, answered, missingBecause } = review;
  const { noAnswer, couldNotBeAsked, notAskedYet } = missingBecause;
  return answerFunnel({
    title: 'Who answered',
    subtitle: review.group,
    stages: [
      { label: 'due', n: all, lost: [] },
      {
        label: 'asked',
        n: all - couldNotBeAsked - notAskedYet,
        lost: [
          { label: 'could not be asked', n: couldNotBeAsked },
          { label: 'not asked yet', n: notAskedYet },
        ],
      },
      { label: 'answered', n: answered, lost: [{ label: 'did not answer', n: noAnswer }] },
      wholeStage(answered, sessions),
    ],
  });
}

/** Those of whom everything that is asked of all is known before and after. */
export function wholeStage(answered: number, sessions: readonly ReviewedSession[]): FunnelStage {
  const whole = sessions.filter((session) =>
    askedOfAll.every((measure) => pairsOf(measure, [session]).length === 1),
  ).length;
  return {
    label: 'everything known',
    n: whole,
    lost: [{ label: 'without some value, before or after', n: answered - whole }],
  };
}

function changeOf(review: OutcomeReviewResponse, measure: DrawnMeasure): MeasureChangeResponse {
  return review.measures.find((item) => item.measure === measure) as MeasureChangeResponse;
}

const verdictOf = (measure: DrawnMeasure, { before, after }: Pair) =>
  judgeChange(outcomeMeasures[measure], before, after);

/** Within it a change is no real one, for somebody at the group's mean. */
function bandOf(measure: DrawnMeasure, meanBefore: number): number {
  const { detectable, important } = outcomeMeasures[measure];
  return Math.max(
    ...[detectable, important].map((threshold) =>
      threshold === null ? 0 : neededChange(threshold, meanBefore, false),
    ),
  );
}
