import { limitedTo, type Rule } from '../rule.js';

export const chestPainOlder = {
  id: 'chest-pain-older',
  version: 1,
  area: 'heart',
  raisedWhen: { yes: 'chest_pain_older' },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please see your doctor about the chest pain within two or three days. We do not put you on the bike until then.',
  messageForStaff:
    'Chest pain longer ago that no doctor has looked at: GP within two or three days; static measuring only.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation: 'NICE CG95 asks for clinical assessment; days and no riding: common practice',
  },
} as const satisfies Rule;
