import { limitedTo, type Rule } from '../rule.js';

export const sexualChange = {
  id: 'sexual-change',
  version: 1,
  area: 'nerve',
  raisedWhen: { yes: 'sexual_change' },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'saddle_trial'),
  messageForClient:
    'Please ask your doctor about this. If your back or legs hurt, or passing urine or stool changes, go to an emergency department.',
  messageForStaff:
    'New sexual change by itself: GP (urology). Ask all questions on back, bladder, bowel and both legs; no long saddle trials.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'study',
    citation:
      'Andersen & Bovim 1997, Acta Neurol Scand 95:233–40 (lasting longer than a week in 11 of 160); route: common practice',
  },
} as const satisfies Rule;
