import { limitedTo, type Rule } from '../rule.js';

export const calfPainOnWalking = {
  id: 'calf-pain-on-walking',
  version: 1,
  area: 'artery',
  raisedWhen: { yes: 'calf_pain_on_walking' },
  route: 'gp_for_vascular_specialist',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your doctor about the leg pain on walking. Until then we fit without hard efforts.',
  messageForStaff: 'Leg pain on ordinary walking: GP, asking for a vascular opinion. No hard effort.',
  wouldChange: 'A vascular assessment, recorded as a clearance.',
  source: {
    strength: 'study',
    citation: 'Kieback et al. 2019, PLoS ONE 14(11):e0224608 (single question on pain during normal walking)',
  },
} as const satisfies Rule;
