import { barsEverything, type Rule } from '../rule.js';

export const chestPain = {
  id: 'chest-pain',
  version: 1,
  area: 'heart',
  raisedWhen: { yes: 'chest_pain' },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'Chest pain needs medical care at once: if you have it now or had it in the last hours, call your local emergency number. Do not ride.',
  messageForStaff: 'Chest pain now or recently: emergency now. Stop, call, stay with the client.',
  wouldChange: 'Medical assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE CG95',
  },
} as const satisfies Rule;
