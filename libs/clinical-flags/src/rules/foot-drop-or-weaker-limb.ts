import { barsEverything, type Rule } from '../rule.js';

export const footDropOrWeakerLimb = {
  id: 'foot-drop-or-weaker-limb',
  version: 1,
  area: 'spine',
  raisedWhen: { yes: 'foot_drops_or_leg_weaker' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff: 'A foot that drops or a limb that gets weaker: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NHS Lothian lumbar red flags (foot drop: discuss with the on-call service)',
  },
} as const satisfies Rule;
