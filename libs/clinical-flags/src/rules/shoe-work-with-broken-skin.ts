import { limitedTo, type Rule } from '../rule.js';

export const shoeWorkWithBrokenSkin = {
  id: 'shoe-work-with-broken-skin',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { fact: 'foot_signs', anyOf: ['open_sore', 'sore_not_healing'] },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('cleat_change', 'wedge_or_shim', 'shoe_work'),
  messageForClient:
    'Please have a podiatrist look at the sore. We leave shoes and cleats as they are until it has healed.',
  messageForStaff: 'Sore or broken skin on a foot: podiatrist; no change at the foot until healed.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
