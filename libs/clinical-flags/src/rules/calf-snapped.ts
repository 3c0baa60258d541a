import { barsEverything, type Rule } from '../rule.js';

export const calfSnapped = {
  id: 'calf-snapped',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { yes: 'calf_snapped' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff: 'A snap in calf or heel and no push-off: same-day medical assessment. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NHS Borders podiatry pathway (urgent)' },
} as const satisfies Rule;
