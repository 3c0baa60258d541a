import { barsNothing, type Rule } from '../rule.js';

export const footNumbOnTheBike = {
  id: 'foot-numb-on-the-bike',
  version: 1,
  area: 'nerve',
  raisedWhen: { all: [{ yes: 'foot_numb_on_bike' }, { no: 'foot_numb_off_bike' }] },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We will look at shoe width, closure and cleat place. Tell us if the numbness ever stays off the bike.',
  messageForStaff:
    'Foot numb on the bike only: fit with caution; width, closure, cleat rearward. Re-ask at follow-up.',
  wouldChange: 'Numbness that stays off the bike.',
  source: {
    strength: 'study',
    citation:
      'J Sci Cycling 2012 1(2), survey of foot pain in cyclists; J Sports Med Phys Fitness 2024, cleat moved back (uncontrolled)',
  },
} as const satisfies Rule;
