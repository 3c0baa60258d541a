import { barsEverything, type Rule } from '../rule.js';

export const feverWithBackOrJointPain = {
  id: 'fever-with-back-or-joint-pain',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: {
    any: [
      { yes: 'fever_with_back_or_joint_pain' },
      { all: [{ fact: 'body_signs', anyOf: ['fever'] }, { yes: 'back_pain' }] },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff: 'Fever with back or joint pain: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NHS England, urgent and emergency musculoskeletal conditions, 23 March 2020',
  },
} as const satisfies Rule;
