import { barsEverything, type Rule } from '../rule.js';

export const legSignsWithClotRisk = {
  id: 'leg-signs-with-clot-risk',
  version: 1,
  area: 'clot',
  raisedWhen: {
    all: [
      { any: [{ yes: 'leg_swelling_one_sided_new' }, { yes: 'leg_hot_or_red' }] },
      {
        any: [
          {
            fact: 'recent_events',
            anyOf: ['surgery', 'bed_rest_or_cast', 'long_travel', 'pregnant', 'gave_birth'],
          },
          { fact: 'medical_conditions', anyOf: ['clot', 'cancer'] },
          { fact: 'medicines', anyOf: ['oestrogen'] },
        ],
      },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Please have your leg looked at by a doctor today; call ahead and mention your answers. Do not ride until then.',
  messageForStaff:
    'Leg signs with something that raises the risk of a clot: same-day medical assessment; phone ahead. No riding, no massage.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'Wells et al. 2003, N Engl J Med 349:1227–35, NICE NG158 (the circumstances); pregnancy, oestrogen, travel: from memory',
  },
} as const satisfies Rule;
