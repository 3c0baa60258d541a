import { limitedTo, type Rule } from '../rule.js';

export const surgeryCleared = {
  id: 'surgery-cleared',
  version: 1,
  area: 'after_surgery',
  raisedWhen: { all: [{ fact: 'recent_events', anyOf: ['surgery'] }, { yes: 'surgeon_allows_riding' }] },
  route: 'fit_with_caution',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient: 'We fit you within what your surgeon allowed, without hard efforts.',
  messageForStaff:
    'Operated within twelve weeks, cleared to ride: fit within the surgeon’s limits; no hard effort.',
  wouldChange: 'The surgeon’s word on hard efforts.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
