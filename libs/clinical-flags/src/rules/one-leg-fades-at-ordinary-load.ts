import { limitedTo, type Rule } from '../rule.js';

export const oneLegFadesAtOrdinaryLoad = {
  id: 'one-leg-fades-at-ordinary-load',
  version: 1,
  area: 'artery',
  raisedWhen: { yes: 'one_leg_fades_at_ordinary_load' },
  route: 'gp_for_vascular_specialist',
  permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
  messageForClient:
    'Please see your doctor about that leg within days and ask whether a blood-vessel specialist should look at it. Until then we fit without hard efforts.',
  messageForStaff:
    'One leg fails at an ordinary pace too: GP within days, asking for a vascular specialist. No hard effort, no shoe work.',
  wouldChange: 'A vascular assessment, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'ACC/AHA 2024 (exertional leg symptoms: ankle-brachial index)' },
} as const satisfies Rule;
