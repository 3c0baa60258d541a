import { limitedTo, type Rule } from '../rule.js';

export const handsNumbOrWeak = {
  id: 'hands-numb-or-weak',
  version: 1,
  area: 'nerve',
  raisedWhen: { any: [{ yes: 'hands_numb_all_the_time' }, { yes: 'grip_weak' }] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please see your doctor about your hand within days. Until then we fit without hard efforts.',
  messageForStaff: 'A hand numb all the time, a weak grip or a thinner thumb: GP, urgent. No hard effort.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'LLR ICB policy on carpal tunnel syndrome (constant numbness, wasting, weakness: urgent referral)',
  },
} as const satisfies Rule;
