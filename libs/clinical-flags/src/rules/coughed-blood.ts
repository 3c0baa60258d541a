import { barsEverything, type Rule } from '../rule.js';

export const coughedBlood = {
  id: 'coughed-blood',
  version: 1,
  area: 'clot',
  raisedWhen: { yes: 'coughed_blood' },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please be seen by a doctor today, and do not ride until then.',
  messageForStaff: 'Coughed up blood: same-day medical assessment, no riding.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
