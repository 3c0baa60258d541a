import { barsEverything, type Rule } from '../rule.js';

export const hotSwollenJoint = {
  id: 'hot-swollen-joint',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { yes: 'joint_hot_and_swollen' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'A joint that became hot or much swollen: same-day medical assessment, fever or not. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'BSR 2006, Rheumatology 45:1039 (to be assessed at once, even without fever)',
  },
} as const satisfies Rule;
