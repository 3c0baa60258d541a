import { barsEverything, type Rule } from '../rule.js';

export const suddenColdPaleLeg = {
  id: 'sudden-cold-pale-leg',
  version: 1,
  area: 'artery',
  raisedWhen: { yes: 'leg_suddenly_cold_or_pale' },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'A suddenly cold, pale, painful, numb or weak leg or foot: emergency now. Call, keep the leg still, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NHS Highland vascular guideline; RCEM Learning, acute limb ischaemia (immediate call)',
  },
} as const satisfies Rule;
