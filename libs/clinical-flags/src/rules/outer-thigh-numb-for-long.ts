import { limitedTo, type Rule } from '../rule.js';

export const outerThighNumbForLong = {
  id: 'outer-thigh-numb-for-long',
  version: 1,
  area: 'nerve',
  raisedWhen: { all: [{ yes: 'outer_thigh_numb' }, { fact: 'outer_thigh_numb_weeks', above: 4 }] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort'),
  messageForClient: 'Please ask your doctor about the numb thigh. Until then we fit without hard efforts.',
  messageForStaff: 'Outer thigh numb for more than four weeks: GP.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
