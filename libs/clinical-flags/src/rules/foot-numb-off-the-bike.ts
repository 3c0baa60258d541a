import { limitedTo, type Rule } from '../rule.js';

export const footNumbOffTheBike = {
  id: 'foot-numb-off-the-bike',
  version: 2,
  area: 'nerve',
  raisedWhen: { yes: 'foot_numb_off_bike' },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('wedge_or_shim', 'shoe_work'),
  messageForClient:
    'Please have a podiatrist or physiotherapist look at the numbness. We do not modify shoes until then.',
  messageForStaff: 'Foot numb off the bike too: podiatrist or physiotherapist. No shoe work, no wedges.',
  wouldChange: 'A podiatrist’s or physiotherapist’s answer, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NHS Borders podiatry pathway (persisting forefoot symptoms)' },
} as const satisfies Rule;
