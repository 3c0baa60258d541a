import { limitedTo, type Rule } from '../rule.js';

export const minorWithoutGuardian = {
  id: 'minor-without-guardian',
  version: 1,
  area: 'general',
  raisedWhen: { all: [{ fact: 'age_years', below: 18 }, { unless: { yes: 'guardian_agrees' } }] },
  route: 'fit_with_caution',
  permission: limitedTo('shoe_work', 'bonding'),
  messageForClient: 'We need the agreement of a parent or guardian before we modify shoes.',
  messageForStaff: 'Under 18 and no guardian’s agreement: no shoe work.',
  wouldChange: 'A guardian’s agreement.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
