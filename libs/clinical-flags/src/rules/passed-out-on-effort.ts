import { barsEverything, type Rule } from '../rule.js';

export const passedOutOnEffort = {
  id: 'passed-out-on-effort',
  version: 1,
  area: 'heart',
  raisedWhen: { yes: 'passed_out_on_effort' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Passing out during exercise needs to be looked at today. Please see a doctor and do not ride until then.',
  messageForStaff:
    'Blackout during or right after effort, never examined: same-day medical assessment; specialist heart assessment within 24 h is asked for.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation: 'NICE CG109 (blackout during exertion: specialist cardiovascular assessment within 24 h)',
  },
} as const satisfies Rule;
