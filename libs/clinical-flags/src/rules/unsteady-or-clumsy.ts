import { limitedTo, type Rule } from '../rule.js';

export const unsteadyOrClumsy = {
  id: 'unsteady-or-clumsy',
  version: 1,
  area: 'spine',
  raisedWhen: { any: [{ yes: 'unsteady_walking' }, { yes: 'hands_clumsy_or_both_numb' }] },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please see your doctor about this within days. We do not put you on the bike until then.',
  messageForStaff: 'Unsteady walking, or clumsy or both hands numb: GP within days; static measuring only.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
