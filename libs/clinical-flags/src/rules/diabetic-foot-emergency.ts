import { barsEverything, type Rule } from '../rule.js';

export const diabeticFootEmergency = {
  id: 'diabetic-foot-emergency',
  version: 1,
  area: 'diabetes',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['diabetes'] },
      {
        any: [
          { fact: 'foot_signs', anyOf: ['black_or_cold'] },
          {
            all: [
              {
                fact: 'foot_signs',
                anyOf: ['open_sore', 'sore_not_healing', 'hot_swollen', 'infected_nail'],
              },
              { fact: 'body_signs', anyOf: ['fever'] },
            ],
          },
        ],
      },
    ],
  },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff: 'Diabetes with a black or cold foot, or a foot wound and fever: emergency now.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE NG19 (limb- or life-threatening: acute services at once)',
  },
} as const satisfies Rule;
