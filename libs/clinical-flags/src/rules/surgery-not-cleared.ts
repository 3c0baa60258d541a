import { limitedTo, type Rule } from '../rule.js';

export const surgeryNotCleared = {
  id: 'surgery-not-cleared',
  version: 1,
  area: 'after_surgery',
  raisedWhen: {
    all: [{ fact: 'recent_events', anyOf: ['surgery'] }, { unless: { yes: 'surgeon_allows_riding' } }],
  },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient: 'Please ask your surgeon whether you may ride. Until then we measure without riding.',
  messageForStaff: 'Operated within twelve weeks, no word from the surgeon: static measuring only.',
  wouldChange: 'The surgeon’s answer, recorded as a clearance with its limits.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
