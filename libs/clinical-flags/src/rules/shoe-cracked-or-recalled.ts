import { limitedTo, type Rule } from '../rule.js';

export const shoeCrackedOrRecalled = {
  id: 'shoe-cracked-or-recalled',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { yes: 'shoe_cracked_or_recalled' },
  route: 'fit_with_caution',
  permission: limitedTo('cleat_change', 'shoe_work', 'bonding'),
  messageForClient: 'We do not modify that shoe. Please replace it.',
  messageForStaff: 'Cracked sole or shoe called back: no cleat change and no shoe work on it.',
  wouldChange: 'Another shoe.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
