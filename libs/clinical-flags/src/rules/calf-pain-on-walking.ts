import { limitedTo, type Rule } from '../rule.js';

export const calfPainOnWalking = {
  id: 'calf-pain-on-walking',
  version: 2,
  area: 'artery',
  raisedWhen: { yes: 'calf_pain_on_walking' },
  route: 'gp_for_vascular_specialist',
  permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
  messageForClient:
    'Please ask your doctor about the leg pain on walking. Until then we fit without hard efforts and leave your shoes as they are.',
  messageForStaff:
    'Leg pain on ordinary walking: GP, asking for a vascular opinion. No hard effort, no shoe work.',
  wouldChange: 'A vascular assessment, recorded as a clearance.',
  source: {
    strength: 'study',
    citation:
      'Kieback et al. 2019, PLoS ONE 14(11):e0224608 (single question on pain during normal walking); no shoe work: common practice',
  },
} as const satisfies Rule;
