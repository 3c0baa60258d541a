import { barsNothing, type Rule } from '../rule.js';

export const whiteToesInTheCold = {
  id: 'white-toes-in-the-cold',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: {
    all: [
      { yes: 'toes_white_in_cold' },
      { unless: { fact: 'cold_toe_signs', anyOf: ['one_side', 'toes_only', 'began_after_30', 'sores'] } },
    ],
  },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We will look at shoe width and warmth. Tell us if a toe gets sore or it comes on one foot only.',
  messageForStaff: 'Toes white or blue in the cold, both sides, skin whole: fit with caution; no tight shoe.',
  wouldChange: 'One side only, toes only, a late beginning, or sores.',
  source: { strength: 'guideline', citation: 'NICE CKS on Raynaud’s phenomenon (local copies)' },
} as const satisfies Rule;
