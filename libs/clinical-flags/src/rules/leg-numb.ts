import { limitedTo, type Rule } from '../rule.js';

export const legNumb = {
  id: 'leg-numb',
  version: 1,
  area: 'nerve',
  raisedWhen: { yes: 'leg_numb_one_side' },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient: 'Please see your doctor about the numb leg within days. If it becomes weak, go today.',
  messageForStaff:
    'A leg numb beyond the outer thigh: GP within days; with growing weakness the same day. No hard effort.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
