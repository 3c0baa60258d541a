import { barsEverything, type Rule } from '../rule.js';

export const backPainWithCordSigns = {
  id: 'back-pain-with-cord-signs',
  version: 1,
  area: 'spine',
  raisedWhen: {
    any: [
      {
        all: [
          { yes: 'back_pain' },
          {
            any: [
              { yes: 'bladder_or_bowel_change' },
              { yes: 'both_legs_weak_or_numb' },
              { yes: 'sexual_change' },
              { yes: 'saddle_numb_new_or_worse' },
              { yes: 'saddle_numb_day_after' },
            ],
          },
        ],
      },
      { all: [{ yes: 'back_pain_new_or_worse' }, { yes: 'saddle_numb' }] },
    ],
  },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'Back or leg pain with numbness where one sits, bladder, bowel, sexual or both-leg change: emergency now. Stop, call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'BMJ Best Practice / UK national pathway on cauda equina syndrome (within two weeks or worsening); both legs: NICE CKS 2018',
  },
} as const satisfies Rule;
