import { barsEverything, type Rule } from '../rule.js';

export const saddleNumbnessWithCordSigns = {
  id: 'saddle-numbness-with-cord-signs',
  version: 2,
  area: 'spine',
  raisedWhen: {
    all: [
      { yes: 'saddle_numb' },
      {
        any: [
          { yes: 'bladder_or_bowel_change' },
          { yes: 'both_legs_weak_or_numb' },
          { yes: 'sexual_change' },
        ],
      },
    ],
  },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'Saddle numbness with bladder, bowel, sexual or both-leg signs: emergency now. Stop, call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'BMJ Best Practice / UK national pathway on cauda equina syndrome; without back pain: common practice (cautious)',
  },
} as const satisfies Rule;
