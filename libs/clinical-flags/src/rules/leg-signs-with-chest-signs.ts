import { barsEverything, type Rule } from '../rule.js';

export const legSignsWithChestSigns = {
  id: 'leg-signs-with-chest-signs',
  version: 1,
  area: 'clot',
  raisedWhen: {
    all: [
      { any: [{ yes: 'leg_swelling_one_sided_new' }, { yes: 'leg_hot_or_red' }] },
      {
        any: [
          { yes: 'chest_pain' },
          { yes: 'breathless_at_rest' },
          { yes: 'coughed_blood' },
          { yes: 'passed_out_lately' },
          { fact: 'heart_signs', anyOf: ['breathless_on_effort'] },
        ],
      },
    ],
  },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'Leg swelling or a hot painful leg together with chest, breath or collapse: emergency now. Call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, from memory: no source was read' },
} as const satisfies Rule;
