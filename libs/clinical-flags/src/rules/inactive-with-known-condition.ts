import { limitedTo, type Rule } from '../rule.js';

export const inactiveWithKnownCondition = {
  id: 'inactive-with-known-condition',
  version: 1,
  area: 'heart',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['heart', 'diabetes', 'kidney'] },
      {
        any: [
          { fact: 'active_days_per_week', below: 3 },
          { fact: 'active_minutes_per_day', below: 30 },
          { fact: 'active_months', below: 3 },
        ],
      },
    ],
  },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your doctor whether you may ride, and how hard. Until then we measure without riding.',
  messageForStaff:
    'Known heart, metabolic or kidney condition and not regularly active: GP clearance first, then easy pedalling.',
  wouldChange: 'A clearance; three months of thirty minutes on three days a week.',
  source: {
    strength: 'guideline',
    citation:
      'Riebe et al. 2015, Med Sci Sports Exerc 47:2473–9; what counts as active seen in study notes only',
  },
} as const satisfies Rule;
