import { holm } from '@studio/outcome-stats';
import { comparisonOf } from './comparison.js';
import { measureChange, missingBecause } from './measure-change.js';
import { powerAnswer } from './power-answer.js';
import type { NumbnessChangeResponse, OutcomeReviewResponse } from './review.dto.js';
import { measures } from './review.dto.js';
import type { Group } from './review-group.js';
import type { ReviewedSession } from './review.queries.js';
import { feelOf, walkingComfortOf } from './told-since.js';

export const caution =
  'Nobody was randomised, and who answers differs from who does not: a change after a fit is not proof that the fit did it.';

/**
 * What changed across clients. Everyone whose follow-up came due belongs to the group; who did not answer, or not
 * this, is counted as missing.
 */
export function review(
  group: Group,
  options: { groupInWords: string; powerMarginPercent: number; others: Group | null },
): OutcomeReviewResponse {
  const { sessions, earlierSessions } = group;
  const answered = sessions.filter(({ answerState }) => answerState === 'answered').length;
  return {
    group: options.groupInWords,
    sessions: sessions.length,
    answered,
    missing: sessions.length - answered,
    missingBecause: missingBecause(sessions),
    earlierSessions,
    measures: corrected(measures.map((measure) => measureChange(measure, sessions))),
    numbness: numbness(sessions),
    sprint: feelOf(sessions.map(({ sprintFeel }) => sprintFeel)),
    standing: feelOf(sessions.map(({ standingFeel }) => standingFeel)),
    walkingComfort: walkingComfortOf(sessions),
    power: powerAnswer(sessions, options),
    comparison: options.others && comparisonOf(sessions, options.others.sessions),
    caution,
  };
}

/** All measures are asked about at once, so each p is corrected for all of them, those that could not be tested too. */
function corrected(changes: OutcomeReviewResponse['measures']): OutcomeReviewResponse['measures'] {
  const asked = changes.flatMap(({ measure, test }) =>
    test === null ? [] : [{ question: measure, p: test.p }],
  );
  const tested = asked.flatMap(({ question, p }) => (p === null ? [] : [{ question, p }]));
  const { questions } = holm(tested, asked.length - tested.length);
  const correctedP = new Map(questions.map((item) => [item.question, item.correctedP]));
  return changes.map((change) =>
    change.test === null
      ? change
      : { ...change, test: { ...change.test, correctedP: correctedP.get(change.measure) ?? null } },
  );
}

function numbness(sessions: readonly ReviewedSession[]): NumbnessChangeResponse {
  const count = (before: boolean, after: boolean): number =>
    sessions.filter((session) => session.numbnessBefore === before && session.numbnessAfter === after).length;
  const kinds = {
    gone: count(true, false),
    stayed: count(true, true),
    appeared: count(false, true),
    never: count(false, false),
  };
  const n = kinds.gone + kinds.stayed + kinds.appeared + kinds.never;
  return { n, missing: sessions.length - n, ...kinds };
}
