import { barsNothing, type Rule } from '../rule.js';

export const saddleNumbnessOnRides = {
  id: 'saddle-numbness-on-rides',
  version: 1,
  area: 'nerve',
  raisedWhen: {
    all: [
      { yes: 'saddle_numb' },
      { no: 'saddle_numb_day_after' },
      { no: 'bladder_or_bowel_change' },
      { no: 'both_legs_weak_or_numb' },
      { no: 'sexual_change' },
      { no: 'back_pain' },
    ],
  },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We will look at saddle, tilt and reach, and at standing up every few minutes. Tell us if the numbness ever lasts into the next day.',
  messageForStaff:
    'Saddle numbness on rides that clears: fit with caution; saddle, tilt, reach, breaks. Re-ask every time.',
  wouldChange: 'Numbness that lasts, or any of the signs beside it.',
  source: { strength: 'study', citation: 'Lowe et al. 2004; review 2020, Sports Med (evidence limited)' },
} as const satisfies Rule;
