import { limitedTo, type Rule } from '../rule.js';

export const coldToesThatNeedALook = {
  id: 'cold-toes-that-need-a-look',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { fact: 'cold_toe_signs', anyOf: ['one_side', 'toes_only', 'began_after_30', 'sores'] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test', 'cleat_change', 'shoe_work'),
  messageForClient:
    'Please ask your doctor about your toes, and whether the blood supply should be looked at. Until then we leave shoes and cleats as they are.',
  messageForStaff:
    'Cold toes on one side, toes only, late beginning or sores: GP, asking about the blood supply. No change at the foot.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NICE CKS on Raynaud’s phenomenon (BNSSG); BMJ 2012 344:e289' },
} as const satisfies Rule;
