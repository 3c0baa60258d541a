import { barsEverything, type Rule } from '../rule.js';

export const legStaysColdOrPaleAfterEffort = {
  id: 'leg-stays-cold-or-pale-after-effort',
  version: 1,
  area: 'artery',
  raisedWhen: { yes: 'one_leg_cold_or_pale_after_effort' },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'A leg that stays cold, pale or numb after effort: emergency now. Stop, call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'NHS Highland vascular guideline; RCEM Learning, acute limb ischaemia (sudden lasting loss of perfusion)',
  },
} as const satisfies Rule;
