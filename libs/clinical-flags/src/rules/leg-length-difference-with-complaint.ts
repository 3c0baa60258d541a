import { limitedTo, type Rule } from '../rule.js';

export const legLengthDifferenceWithComplaint = {
  id: 'leg-length-difference-with-complaint',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: {
    all: [
      { fact: 'leg_length_difference_mm', atLeast: 10 },
      { someSite: { fact: 'complaint_quality', anyOf: ['pain', 'numbness', 'tingling', 'swelling'] } },
    ],
  },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('wedge_or_shim'),
  messageForClient: 'Please have a physiotherapist look at the leg-length difference before we even it out.',
  messageForStaff: 'Leg-length difference of 10 mm or more with a complaint: physiotherapist before shims.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: {
    strength: 'study',
    citation:
      'Applebaum et al. 2021, Clin Orthop Surg 13:127–34 (below 10 mm typical without symptoms); route: common practice',
  },
} as const satisfies Rule;
