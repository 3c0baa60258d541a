import { limitedTo, type Rule } from '../rule.js';

export const bonePainOnLoading = {
  id: 'bone-pain-on-loading',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { yes: 'bone_pain_on_loading' },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please see your doctor about this within days. We do not put you on the bike until then.',
  messageForStaff:
    'Groin, hip or one spot of bone hurts on loading or wakes at night: GP within days; no riding.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'expert opinion',
    citation: 'StatPearls review (femoral neck); other sites from memory; days: common practice',
  },
} as const satisfies Rule;
