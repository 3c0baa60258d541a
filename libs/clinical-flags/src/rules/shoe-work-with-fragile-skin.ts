import { limitedTo, type Rule } from '../rule.js';

export const shoeWorkWithFragileSkin = {
  id: 'shoe-work-with-fragile-skin',
  version: 1,
  area: 'medicines',
  raisedWhen: { all: [{ fact: 'medicines', anyOf: ['blood_thinner', 'steroids'] }, { yes: 'skin_fragile' }] },
  route: 'fit_with_caution',
  permission: limitedTo('shoe_work'),
  messageForClient: 'Because your skin bruises or tears easily we do not modify your shoes.',
  messageForStaff: 'Blood thinner or cortisone with fragile skin: no shoe work.',
  wouldChange: 'A clinician’s word on shoe work.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
