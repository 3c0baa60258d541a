import { limitedTo, type Rule } from '../rule.js';

export const severeOrRestingPain = {
  id: 'severe-or-resting-pain',
  version: 1,
  area: 'general',
  raisedWhen: {
    someSite: {
      all: [
        { fact: 'complaint_quality', anyOf: ['pain'] },
        {
          any: [
            { fact: 'complaint_worst', atLeast: 7 },
            { fact: 'complaint_when', anyOf: ['at_rest'] },
            { yes: 'complaint_rises' },
          ],
        },
      ],
    },
  },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient: 'Please see your doctor about the pain within days. We stop riding until then.',
  messageForStaff:
    'Pain of 7 of 10 or more, at rest or at night, or rising by two points over a ride: stop; GP within days.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation: 'common practice; two points: Farrar et al. 2001, Pain 94:149–58',
  },
} as const satisfies Rule;
