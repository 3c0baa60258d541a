import { limitedTo, type Rule } from '../rule.js';

export const thighOrButtockPainOnWalking = {
  id: 'thigh-or-buttock-pain-on-walking',
  version: 1,
  area: 'artery',
  raisedWhen: { yes: 'thigh_or_buttock_pain_on_walking' },
  route: 'gp_for_vascular_specialist',
  permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
  messageForClient:
    'Please ask your doctor about the pain on walking. Until then we fit without hard efforts and leave your shoes as they are.',
  messageForStaff:
    'Thigh or buttock pain on walking that standing still stops: GP, asking for a vascular opinion. No hard effort, no shoe work.',
  wouldChange: 'A vascular assessment, recorded as a clearance.',
  source: {
    strength: 'study',
    citation: 'Leng & Fowkes 1992, J Clin Epidemiol 45:1101–9 (thigh or buttock without calf)',
  },
} as const satisfies Rule;
