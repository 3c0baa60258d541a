import { barsEverything, type Rule } from '../rule.js';

export const bladderBowelOrBothLegs = {
  id: 'bladder-bowel-or-both-legs',
  version: 2,
  area: 'spine',
  raisedWhen: { any: [{ yes: 'bladder_or_bowel_change' }, { yes: 'both_legs_weak_or_numb' }] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Please be seen by a doctor today, and do not ride until then. If your back or legs hurt too, or the area you sit on feels numb, go to an emergency department now.',
  messageForStaff:
    'New bladder, bowel or both-leg signs: same-day medical assessment, no riding. With back or leg pain or saddle numbness: emergency now.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation:
      'common practice (cautious): BMJ Best Practice / UK national pathway asks for these signs together with back or leg pain',
  },
} as const satisfies Rule;
