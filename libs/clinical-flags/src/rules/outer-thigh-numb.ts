import { barsNothing, type Rule } from '../rule.js';

export const outerThighNumb = {
  id: 'outer-thigh-numb',
  version: 1,
  area: 'nerve',
  raisedWhen: {
    all: [
      { yes: 'outer_thigh_numb' },
      { unless: { fact: 'outer_thigh_numb_weeks', above: 4 } },
      { no: 'foot_drops_or_leg_weaker' },
    ],
  },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We will look at your waistband, belt and hip angle. Tell us if the leg weakens or the numbness lasts.',
  messageForStaff: 'Outer thigh numb or tingling: fit with caution; waist and hip angle. Re-ask every time.',
  wouldChange: 'More than four weeks, or any weakness.',
  source: {
    strength: 'expert opinion',
    citation: 'clinical reviews (Medscape); four weeks: common practice',
  },
} as const satisfies Rule;
