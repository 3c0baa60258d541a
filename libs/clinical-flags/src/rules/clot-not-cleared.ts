import { limitedTo, type Rule } from '../rule.js';

export const clotNotCleared = {
  id: 'clot-not-cleared',
  version: 1,
  area: 'clot',
  raisedWhen: { all: [{ fact: 'medical_conditions', anyOf: ['clot'] }, { unless: { yes: 'clot_cleared' } }] },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient: 'Please ask your doctor whether you may ride. Until then we measure without riding.',
  messageForStaff: 'A clot in the history and no clearance known: GP first; static measuring only.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
