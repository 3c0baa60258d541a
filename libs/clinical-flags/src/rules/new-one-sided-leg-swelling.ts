import { barsEverything, type Rule } from '../rule.js';

export const newOneSidedLegSwelling = {
  id: 'new-one-sided-leg-swelling',
  version: 1,
  area: 'clot',
  raisedWhen: { yes: 'leg_swelling_one_sided_new' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please have your leg looked at by a doctor today, and do not ride until then.',
  messageForStaff:
    'New swelling of one leg: no riding, no massage. Send to same-day medical assessment with a written note.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE NG158 (history and examination within hours); route for a non-clinician: common practice',
  },
} as const satisfies Rule;
