import { barsEverything, type Rule } from '../rule.js';

export const chestPainInThreeDays = {
  id: 'chest-pain-in-three-days',
  version: 1,
  area: 'heart',
  raisedWhen: { all: [{ yes: 'chest_pain' }, { fact: 'chest_pain_hours_ago', above: 12 }] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Chest pain in the last days needs a doctor today. Do not ride until then; if it comes back, call your local emergency number.',
  messageForStaff: 'Chest pain twelve to seventy-two hours ago: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NICE CG95 (12–72 h ago: same-day assessment)' },
} as const satisfies Rule;
