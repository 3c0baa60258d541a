import type { Answer } from '../outcome-inputs.js';

/** An answer of which nothing is known but what is said. */
export const answer = (known: Partial<Answer>): Answer => ({
  week: 6,
  pain: null,
  comfort: null,
  numbness: null,
  power20MinW: null,
  activities: [null, null, null],
  overallChange: null,
  walkingComfort: null,
  sprintFeel: null,
  standingFeel: null,
  ...known,
});
