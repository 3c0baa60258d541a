import { limitedTo, type Rule } from '../rule.js';

export const burningBetweenToes = {
  id: 'burning-between-toes',
  version: 1,
  area: 'nerve',
  raisedWhen: { yes: 'toes_burn_between' },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('wedge_or_shim', 'shoe_work'),
  messageForClient: 'Please have a podiatrist look at your forefoot. We do not modify shoes until then.',
  messageForStaff: 'Burning between two toes or a pebble feeling: podiatrist. No shoe work, no wedges.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NHS Borders podiatry pathway (routine podiatry)' },
} as const satisfies Rule;
