import { limitedTo, type Rule } from '../rule.js';

export const pregnancyOrRecentBirth = {
  id: 'pregnancy-or-recent-birth',
  version: 1,
  area: 'pregnancy',
  raisedWhen: { fact: 'recent_events', anyOf: ['pregnant', 'gave_birth'] },
  route: 'fit_with_caution',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your doctor or midwife what riding suits you now. We fit you without hard efforts.',
  messageForStaff:
    'Pregnant or gave birth within twelve weeks: fit with caution; upright, no hard effort; leg signs are asked every time.',
  wouldChange: 'A doctor’s or midwife’s word.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
