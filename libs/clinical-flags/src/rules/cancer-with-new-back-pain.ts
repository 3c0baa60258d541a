import { barsEverything, type Rule } from '../rule.js';

export const cancerWithNewBackPain = {
  id: 'cancer-with-new-back-pain',
  version: 1,
  area: 'spine',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['cancer'] },
      { any: [{ yes: 'back_pain_new_or_worse' }, { yes: 'unsteady_walking' }] },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'Known cancer with new back pain or unsteady walking: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'NHS England, urgent and emergency musculoskeletal conditions, 23 March 2020; NHS Lothian lumbar red flags',
  },
} as const satisfies Rule;
