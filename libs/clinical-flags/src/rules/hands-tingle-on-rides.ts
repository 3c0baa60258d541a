import { barsNothing, type Rule } from '../rule.js';

export const handsTingleOnRides = {
  id: 'hands-tingle-on-rides',
  version: 1,
  area: 'nerve',
  raisedWhen: {
    all: [
      { yes: 'hands_tingle_on_bike' },
      { no: 'hands_numb_all_the_time' },
      { no: 'grip_weak' },
      { no: 'hands_clumsy_or_both_numb' },
    ],
  },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We will look at the load on your hands. Tell us if the tingling stays or your grip weakens.',
  messageForStaff:
    'Hands tingle on rides: fit with caution; load on the hands, reach, bar height. Re-ask every time.',
  wouldChange: 'Numbness that stays, or a weak grip.',
  source: { strength: 'study', citation: 'Patterson et al. 2003, Am J Sports Med 31:585–9' },
} as const satisfies Rule;
