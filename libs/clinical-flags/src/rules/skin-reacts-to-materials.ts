import { limitedTo, type Rule } from '../rule.js';

export const skinReactsToMaterials = {
  id: 'skin-reacts-to-materials',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { fact: 'allergies', anyOf: ['epoxy_or_acrylate', 'rubber', 'nickel'] },
  route: 'fit_with_caution',
  permission: limitedTo('bonding'),
  messageForClient: 'We use no bonded part near your skin.',
  messageForStaff: 'Reacts to resin, rubber or nickel: no bonded part near the skin.',
  wouldChange: 'A dermatologist’s word on the material.',
  source: {
    strength: 'study',
    citation: 'Kanerva’s Occupational Dermatology (sensitisation by resins); the rule: common practice',
  },
} as const satisfies Rule;
