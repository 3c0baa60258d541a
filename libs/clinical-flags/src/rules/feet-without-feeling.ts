import { limitedTo, type Rule } from '../rule.js';

export const feetWithoutFeeling = {
  id: 'feet-without-feeling',
  version: 1,
  area: 'nerve',
  raisedWhen: {
    any: [{ yes: 'feet_numb_like_socks' }, { fact: 'medical_conditions', anyOf: ['feet_without_feeling'] }],
  },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test', 'cleat_change', 'wedge_or_shim', 'shoe_work'),
  messageForClient:
    'Please have your doctor and a podiatrist look at the feeling in your feet. Until then we leave shoes and cleats as they are.',
  messageForStaff: 'Both feet feel less: GP and podiatrist. No wedges, no shoe work, no tight shoe.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'IWGDF 2019 (loss of protective sensation); route: common practice',
  },
} as const satisfies Rule;
