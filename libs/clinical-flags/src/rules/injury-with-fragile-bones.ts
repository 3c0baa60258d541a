import { barsEverything, type Rule } from '../rule.js';

export const injuryWithFragileBones = {
  id: 'injury-with-fragile-bones',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: {
    all: [
      { yes: 'injury_recent' },
      {
        any: [
          { fact: 'medical_conditions', anyOf: ['thin_bones'] },
          { fact: 'medicines', anyOf: ['steroids'] },
        ],
      },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'An injury that still hurts, with thin bones or long cortisone: same-day medical assessment. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'NHS Gloucestershire spinal pathway (minor trauma with osteoporosis or steroids); same day: common practice',
  },
} as const satisfies Rule;
