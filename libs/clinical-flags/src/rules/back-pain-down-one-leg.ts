import { limitedTo, type Rule } from '../rule.js';

export const backPainDownOneLeg = {
  id: 'back-pain-down-one-leg',
  version: 1,
  area: 'spine',
  raisedWhen: { yes: 'back_pain_down_one_leg' },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please have a physiotherapist look at your back and leg. Until then we keep you upright and without hard efforts.',
  messageForStaff:
    'Back pain with signs down one leg, nothing urgent: physiotherapist or GP; upright set-up only.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
