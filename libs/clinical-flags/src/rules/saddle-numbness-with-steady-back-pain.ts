import { limitedTo, type Rule } from '../rule.js';

export const saddleNumbnessWithSteadyBackPain = {
  id: 'saddle-numbness-with-steady-back-pain',
  version: 1,
  area: 'spine',
  raisedWhen: { all: [{ yes: 'saddle_numb' }, { yes: 'back_pain' }] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'provocation_test', 'saddle_trial'),
  messageForClient:
    'Please tell your doctor within days that your back hurts and the area you sit on goes numb on the bike. If passing urine or stool, or your legs, change, go to an emergency department.',
  messageForStaff:
    'Saddle numbness on rides and back pain: GP within days; no long saddle trials. Ask every time whether either is new or worse: then emergency now.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation:
      'common practice: the pathway on cauda equina syndrome asks for recent or worsening signs; a long-standing pair is not left alone',
  },
} as const satisfies Rule;
