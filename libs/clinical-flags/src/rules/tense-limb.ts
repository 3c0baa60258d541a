import { barsEverything, type Rule } from '../rule.js';

export const tenseLimb = {
  id: 'tense-limb',
  version: 1,
  area: 'compartment',
  raisedWhen: { yes: 'limb_tense_and_worsening' },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'A hard, tense limb with pain that grows at rest: emergency now. Do not bandage or massage; call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'study',
    citation: 'Donaldson et al. 2014, Open Orthop J 8:185 (damage within six hours)',
  },
} as const satisfies Rule;
