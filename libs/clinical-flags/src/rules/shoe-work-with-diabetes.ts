import { limitedTo, type Rule } from '../rule.js';

export const shoeWorkWithDiabetes = {
  id: 'shoe-work-with-diabetes',
  version: 1,
  area: 'diabetes',
  raisedWhen: { fact: 'medical_conditions', anyOf: ['diabetes'] },
  route: 'fit_with_caution',
  permission: limitedTo('wedge_or_shim', 'shoe_work'),
  messageForClient:
    'Because of the diabetes we do not modify your shoes. A podiatrist can say what suits your feet.',
  messageForStaff: 'Diabetes: no shoe work, no wedges, no tight shoe. Ask about feet every time.',
  wouldChange: 'A podiatrist’s word on shoes.',
  source: {
    strength: 'common practice',
    citation: 'common practice; IWGDF 2019 for the risk of feet with diabetes',
  },
} as const satisfies Rule;
