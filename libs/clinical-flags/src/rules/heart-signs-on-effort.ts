import { limitedTo, type Rule } from '../rule.js';

export const heartSignsOnEffort = {
  id: 'heart-signs-on-effort',
  version: 1,
  area: 'heart',
  raisedWhen: {
    fact: 'heart_signs',
    anyOf: [
      'tight_on_effort',
      'breathless_on_effort',
      'dizzy',
      'breathless_lying',
      'palpitations',
      'murmur',
      'unusual_fatigue',
    ],
  },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please see your doctor about this within two or three days. We do not put you on the bike until then.',
  messageForStaff:
    'Signs on effort that no doctor has looked at: GP within two or three days; static measuring only.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'Riebe et al. 2015, Med Sci Sports Exerc 47:2473–9 (signs or symptoms: stop exercise, clearance before resuming); days: common practice',
  },
} as const satisfies Rule;
