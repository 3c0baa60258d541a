import type { ReviewedSession } from '../../apps/api/src/features/outcomes/review.queries.js';

/** An answered session of which nothing is known but what is said. */
export const reviewedSession = (known: Partial<ReviewedSession>): ReviewedSession => ({
  clientId: 'client',
  chosen: true,
  answerState: 'answered',
  painBefore: null,
  painAfter: null,
  comfortBefore: null,
  comfortAfter: null,
  numbnessBefore: null,
  numbnessAfter: null,
  power20MinBeforeW: null,
  power20MinAfterW: null,
  activitiesBefore: null,
  activitiesAfter: null,
  overallChange: null,
  walkingComfort: null,
  sprintFeel: null,
  standingFeel: null,
  saddleChangePredictedMm: null,
  saddleChangeLeftMm: null,
  ...known,
});
