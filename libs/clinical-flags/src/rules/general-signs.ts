import { limitedTo, type Rule } from '../rule.js';

export const generalSigns = {
  id: 'general-signs',
  version: 1,
  area: 'general',
  raisedWhen: { fact: 'body_signs', anyOf: ['weight_loss', 'night_pain', 'lump', 'fever'] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient: 'Please see your doctor about this within days. Until then we fit without hard efforts.',
  messageForStaff:
    'Weight loss, pain that keeps from sleeping, a lump or a fever: GP within days. No hard effort.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'NHS England, urgent and emergency musculoskeletal conditions, 23 March 2020 (general triggers); Finucane et al. 2020, J Orthop Sports Phys Ther 50:350–72',
  },
} as const satisfies Rule;
