import { barsEverything, type Rule } from '../rule.js';

export const footRestPainOrSore = {
  id: 'foot-rest-pain-or-sore',
  version: 1,
  area: 'artery',
  raisedWhen: {
    any: [{ yes: 'foot_pain_at_rest' }, { fact: 'foot_signs', anyOf: ['sore_not_healing', 'black_or_cold'] }],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Please have your foot looked at by a doctor today, and do not ride until then. If it turned cold or black suddenly, call your local emergency number.',
  messageForStaff:
    'Foot pain at rest or at night, a sore that does not heal, or a black or cold toe: same-day medical assessment. No riding, no shoe work.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'NHS Highland vascular guideline (chronic limb-threatening); NICE NG19 for diabetes; same day: cautious, common practice',
  },
} as const satisfies Rule;
