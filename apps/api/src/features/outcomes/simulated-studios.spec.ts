import { describe, expect, it } from '@jest/globals';
import { missingAnswersSensitivity, type Unanswered } from '@studio/outcome-stats';
import { reviewedSession } from '../../../../../tests/helpers/reviewed-session.js';
import { normalFrom, seededRandom } from '../../../../../tests/outside/outcome-stats/seeded-random.js';
import { measureChange, pairsOf } from './measure-change.js';
import { powerAnswer } from './power-answer.js';
import type { ReviewedSession } from './review.queries.js';

// Forty studios, each with a true effect, a size and a share of missing answers of its own, drawn fifty times.
const studios = 40;
const timesEach = 50;
const draws = studios * timesEach;
const tolerance = 0.02;

const random = seededRandom(40);
const normal = normalFrom(random);

interface SimulatedStudio {
  readonly riders: number;
  readonly trueChange: number;
  readonly missing: number;
}
const studioOf = (index: number): SimulatedStudio => ({
  riders: 10 + ((index * 7) % 50),
  trueChange: -4 + 0.35 * index,
  missing: 0.1 + 0.35 * (index / studios),
});

type Silent = (studio: SimulatedStudio, rider: { before: number; change: number }) => number;

/** @param silent chance that a rider does not answer */
function comfortOf(studio: SimulatedStudio, silent: Silent): ReviewedSession[] {
  return Array.from({ length: studio.riders }, () => {
    const before = 50 + 5 * normal();
    const change = studio.trueChange + 6 * normal();
    const answered = random() >= silent(studio, { before, change });
    return reviewedSession({
      answerState: answered ? 'answered' : 'asked',
      comfortBefore: before,
      comfortAfter: answered ? before + change : null,
    });
  });
}

/** Every rider's power times `share`, give or take what a test errs. */
function powerOf(studio: SimulatedStudio, share: number): ReviewedSession[] {
  return Array.from({ length: studio.riders }, () => {
    const before = 240 + 40 * normal();
    const answered = random() >= studio.missing;
    return reviewedSession({
      answerState: answered ? 'answered' : 'asked',
      power20MinBeforeW: before,
      power20MinAfterW: answered ? before * share + 240 * 0.029 * Math.SQRT2 * normal() : null,
    });
  });
}

const shareOf = (holds: (studio: SimulatedStudio) => boolean): number => {
  let count = 0;
  for (let draw = 0; draw < draws; draw += 1) if (holds(studioOf(draw % studios))) count += 1;
  return count / draws;
};
const near = (found: number, stated: number): void => {
  expect(Math.abs(found - stated)).toBeLessThanOrEqual(tolerance);
};
const covers = (interval: { low: number; high: number } | null, truth: number): boolean =>
  interval !== null && interval.low <= truth && truth <= interval.high;

const byChance: Silent = ({ missing }) => missing;
/** Who was uncomfortable before answers less often; that tells nothing of the change. */
const byBefore: Silent = ({ missing }, { before }) => missing * (before < 50 ? 1.6 : 0.4);
/** Who is disappointed answers less often. */
const byChange: Silent = ({ missing, trueChange }, { change }) => missing * (change < trueChange ? 1.8 : 0.2);

describe(`forty studios, ${draws} reviews`, () => {
  it.each([
    ['by chance', byChance],
    ['by how it was before', byBefore],
  ])('cover the true change 95 %% of the time where answers are missing %s', (_, silent) => {
    const hits = { mean: 0, typical: 0, level: 0 };
    for (let draw = 0; draw < draws; draw += 1) {
      const studio = studioOf(draw % studios);
      const sessions = comfortOf(studio, silent);
      const change = measureChange('comfort', sessions);
      expect(change.n + change.missing).toBe(studio.riders);
      if (covers(change.interval95, studio.trueChange)) hits.mean += 1;
      // Below six answers there is no such interval.
      if (change.n < 6) continue;
      hits.level += 1;
      if (covers(change.typicalChange.interval95, studio.trueChange)) hits.typical += 1;
    }
    near(hits.mean / draws, 0.95);
    expect(hits.typical / hits.level).toBeGreaterThanOrEqual(0.95 - tolerance);
  });

  it('cover it too seldom where the disappointed stay silent; the bounds for the missing hold it all the same', () => {
    let [asAnswered, bounds] = [0, 0];
    for (let draw = 0; draw < draws; draw += 1) {
      const studio = studioOf(draw % studios);
      const sessions = comfortOf(studio, byChange);
      const pairs = pairsOf('comfort', sessions);
      const unanswered = sessions
        .filter(({ comfortAfter }) => comfortAfter === null)
        .map(({ comfortBefore }): Unanswered => ({ before: comfortBefore, lastKnown: null }));
      const found = missingAnswersSensitivity(pairs, unanswered, { low: 0, high: 100 }, 'higher');
      if (covers(found.asAnswered.interval95, studio.trueChange)) asAnswered += 1;
      const low = found.worstCase.interval95?.low ?? NaN;
      const high = found.bestCase.interval95?.high ?? NaN;
      if (covers({ low, high }, studio.trueChange)) bounds += 1;
    }
    expect(asAnswered / draws).toBeLessThan(0.9);
    expect(bounds / draws).toBeGreaterThanOrEqual(0.95);
  });

  const verdictOf = (studio: SimulatedStudio, share: number) =>
    powerAnswer(powerOf(studio, share), { groupInWords: 'riders', powerMarginPercent: 2 }).verdict;

  it('say “no power lost” of a loss right at the margin 5 % of the time, and “lost” as often', () => {
    near(
      shareOf((studio) => verdictOf(studio, 0.98) === 'not worse'),
      0.05,
    );
    near(
      shareOf((studio) => verdictOf(studio, 0.98) === 'worse'),
      0.05,
    );
  });

  it('say it of a loss beyond the margin yet more seldom, and of none lost ever more often the larger they are', () => {
    expect(shareOf((studio) => verdictOf(studio, 0.97) === 'not worse')).toBeLessThan(0.05 - tolerance);
    const byRiders = [12, 30, 120].map((riders) =>
      shareOf((studio) => verdictOf({ ...studio, riders }, 1) === 'not worse'),
    );
    expect(byRiders).toEqual([...byRiders].sort((one, other) => one - other));
    expect(byRiders[2]).toBeGreaterThan(0.9);
  });
});
