import { barsEverything, type Rule } from '../rule.js';

export const injuryCannotLoad = {
  id: 'injury-cannot-load',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { fact: 'injury_signs', anyOf: ['cannot_take_four_steps', 'cannot_bend_knee', 'misshapen'] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff:
    'After an injury: cannot take four steps, cannot bend the knee to a right angle, or out of shape: same-day medical assessment. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'study',
    citation:
      'Stiell et al. 1992–95, Ottawa ankle and knee rules (the parts that need no palpation); misshapen: common practice',
  },
} as const satisfies Rule;
