import { barsEverything, type Rule } from '../rule.js';

export const kneeLocksOrGivesWay = {
  id: 'knee-locks-or-gives-way',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { yes: 'knee_locks_or_gives_way' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff: 'A knee that locks, or gives way since an injury: same-day medical assessment. No riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
