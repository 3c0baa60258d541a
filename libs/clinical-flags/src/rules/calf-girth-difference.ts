import { barsEverything, type Rule } from '../rule.js';

export const calfGirthDifference = {
  id: 'calf-girth-difference',
  version: 1,
  area: 'clot',
  raisedWhen: {
    all: [{ yes: 'calf_newly_thicker' }, { unless: { fact: 'calf_girth_difference_mm', below: 30 } }],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'One calf newly thicker, by three centimetres or nobody knows by how much: same-day medical assessment, even without pain. No riding, no massage.',
  wouldChange:
    'A doctor’s assessment, recorded as a clearance; a difference measured below three centimetres.',
  source: {
    strength: 'study',
    citation:
      'Wells et al. 2003, N Engl J Med 349:1227–35 (3 cm, ten centimetres below the tibial tuberosity); route: common practice',
  },
} as const satisfies Rule;
