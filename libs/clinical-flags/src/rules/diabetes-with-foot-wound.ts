import { barsEverything, type Rule } from '../rule.js';

export const diabetesWithFootWound = {
  id: 'diabetes-with-foot-wound',
  version: 1,
  area: 'diabetes',
  raisedWhen: {
    all: [
      { fact: 'medical_conditions', anyOf: ['diabetes'] },
      {
        fact: 'foot_signs',
        anyOf: ['open_sore', 'sore_not_healing', 'hot_swollen', 'shape_changed', 'infected_nail'],
      },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Please have your foot looked at by your foot service or a doctor today, or on the next working day at the latest. Do not ride until then.',
  messageForStaff:
    'Diabetes with a sore, blister, hot, swollen or changed foot: foot service within one working day; at once with fever, black or cold. No riding, no shoe work.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NICE NG19 (foot service within one working day)' },
} as const satisfies Rule;
