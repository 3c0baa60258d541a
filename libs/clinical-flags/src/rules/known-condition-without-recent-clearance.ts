import { limitedTo, type Rule } from '../rule.js';

export const knownConditionWithoutRecentClearance = {
  id: 'known-condition-without-recent-clearance',
  version: 1,
  area: 'heart',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['heart', 'diabetes', 'kidney'] },
      { any: [{ no: 'cleared_for_hard_exercise' }, { fact: 'cleared_months_ago', above: 12 }] },
    ],
  },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your doctor whether you may ride hard. Until then we fit without hard efforts.',
  messageForStaff:
    'Known heart, metabolic or kidney condition, not cleared for hard exercise in twelve months: GP; no hard effort.',
  wouldChange: 'A clearance for hard exercise within the last twelve months.',
  source: {
    strength: 'guideline',
    citation: 'Riebe et al. 2015, Med Sci Sports Exerc 47:2473–9; the twelve months seen in part only',
  },
} as const satisfies Rule;
