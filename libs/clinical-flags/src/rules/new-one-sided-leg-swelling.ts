import { barsEverything, type Rule } from '../rule.js';

export const newOneSidedLegSwelling = {
  id: 'new-one-sided-leg-swelling',
  version: 2,
  area: 'clot',
  raisedWhen: {
    any: [
      { yes: 'leg_swelling_one_sided_new' },
      { yes: 'leg_hot_or_red' },
      {
        someSite: {
          all: [
            { fact: 'complaint_quality', anyOf: ['swelling'] },
            { fact: 'complaint_duration', anyOf: ['under_two_weeks'] },
          ],
        },
        at: ['groin', 'thigh_front', 'thigh_back', 'calf', 'shin'],
      },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please have your leg looked at by a doctor today, and do not ride until then.',
  messageForStaff:
    'New swelling of one leg, or a hot or red painful calf or thigh: no riding, no massage. Same-day medical assessment with a written note.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE NG158 (history and examination within hours); route for a non-clinician: common practice',
  },
} as const satisfies Rule;
