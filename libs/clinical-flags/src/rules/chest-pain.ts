import { barsEverything, type Rule } from '../rule.js';

export const chestPain = {
  id: 'chest-pain',
  version: 2,
  area: 'heart',
  raisedWhen: { all: [{ yes: 'chest_pain' }, { unless: { fact: 'chest_pain_hours_ago', above: 12 } }] },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'Chest pain needs medical care at once: if you have it now or had it in the last hours, call your local emergency number. Do not ride.',
  messageForStaff:
    'Chest pain now or within twelve hours, or nobody knows when: emergency now. Stop, call, stay with the client.',
  wouldChange:
    'Medical assessment, recorded as a clearance; a clear answer that it was longer ago than twelve hours.',
  source: {
    strength: 'guideline',
    citation:
      'NICE CG95 (pain now, or within 12 h without a normal ECG); exactly twelve hours counts as within: common practice',
  },
} as const satisfies Rule;
