import { limitedTo, type Rule } from '../rule.js';

export const bothAnklesSwollen = {
  id: 'both-ankles-swollen',
  version: 1,
  area: 'clot',
  raisedWhen: { yes: 'both_ankles_swollen' },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
  messageForClient:
    'Please ask your doctor about the swollen ankles. Until then we fit without hard efforts and leave your shoes as they are.',
  messageForStaff: 'Both ankles swollen for long: GP. No hard effort, no shoe work.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation:
      'ankle swelling of both sides is a sign to check (ACSM guidelines, table of signs); route: common practice',
  },
} as const satisfies Rule;
