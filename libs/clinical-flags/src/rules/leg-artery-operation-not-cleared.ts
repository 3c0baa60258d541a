import { limitedTo, type Rule } from '../rule.js';

export const legArteryOperationNotCleared = {
  id: 'leg-artery-operation-not-cleared',
  version: 1,
  area: 'after_surgery',
  raisedWhen: { all: [{ yes: 'leg_artery_operated' }, { unless: { yes: 'leg_artery_surgeon_agrees' } }] },
  route: 'gp_within_days',
  permission: limitedTo('riding', 'hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your surgeon whether you may ride, and what you must not do. Until then we measure without riding.',
  messageForStaff: 'Operation on a leg or groin vessel, no word from the surgeon: static measuring only.',
  wouldChange: 'The surgeon’s answer, recorded as a clearance with its limits.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
