import { limitedTo, type Rule } from '../rule.js';

export const poorCirculationNotCleared = {
  id: 'poor-circulation-not-cleared',
  version: 1,
  area: 'artery',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['leg_circulation'] },
      { unless: { yes: 'circulation_cleared' } },
    ],
  },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test', 'cleat_change', 'shoe_work'),
  messageForClient:
    'Please ask your doctor whether you may ride, and how hard. Until then we only change what makes you comfortable.',
  messageForStaff:
    'Known poor leg circulation, no clearance known: GP. No hard effort, no change at the foot.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
