import { barsEverything, type Rule } from '../rule.js';

export const unsteadyWithClumsyOrNumbHands = {
  id: 'unsteady-with-clumsy-or-numb-hands',
  version: 1,
  area: 'spine',
  raisedWhen: { all: [{ yes: 'unsteady_walking' }, { yes: 'hands_clumsy_or_both_numb' }] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'Unsteady walking with clumsy hands or both hands numb: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'McCartney 2018, Br J Gen Pract (signs); same day: cautious, common practice',
  },
} as const satisfies Rule;
