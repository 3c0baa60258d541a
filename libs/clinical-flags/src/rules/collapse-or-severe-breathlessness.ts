import { barsEverything, type Rule } from '../rule.js';

export const collapseOrSevereBreathlessness = {
  id: 'collapse-or-severe-breathlessness',
  version: 1,
  area: 'heart',
  raisedWhen: { any: [{ yes: 'breathless_at_rest' }, { yes: 'passed_out_lately' }] },
  route: 'emergency_now',
  permission: barsEverything,
  messageForClient:
    'This needs emergency care now: call your local emergency number or go to an emergency department. Do not ride.',
  messageForStaff:
    'Collapse, or badly short of breath at rest: emergency now. Stop, call, stay with the client.',
  wouldChange: 'Emergency assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE CG95 (breathlessness), CG109; collapse within days: common practice',
  },
} as const satisfies Rule;
