import { limitedTo, type Rule } from '../rule.js';

export const poorCirculationCleared = {
  id: 'poor-circulation-cleared',
  version: 1,
  area: 'artery',
  raisedWhen: {
    all: [{ fact: 'medical_conditions', anyOf: ['leg_circulation'] }, { yes: 'circulation_cleared' }],
  },
  route: 'fit_with_caution',
  permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
  messageForClient: 'We fit you without hard efforts and without pressure at the toes.',
  messageForStaff:
    'Known leg circulation under care, cleared: fit with caution; no hard effort, no pressure at the toes, no shoe work.',
  wouldChange: 'New leg or foot signs; a clinician’s word on hard efforts.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
