import { barsEverything, type Rule } from '../rule.js';

export const footHotOrChanged = {
  id: 'foot-hot-or-changed',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { fact: 'foot_signs', anyOf: ['hot_swollen', 'shape_changed'] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'A hot, red or swollen foot, or one that changed shape within weeks: same-day medical assessment. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NHS Gloucestershire foot pathway (red flags); NHS Borders podiatry pathway',
  },
} as const satisfies Rule;
