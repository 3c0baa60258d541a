import { limitedTo, type Rule } from '../rule.js';

export const legLengthDifferenceLarge = {
  id: 'leg-length-difference-large',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: {
    any: [
      { fact: 'leg_length_difference_mm', atLeast: 20 },
      {
        fact: 'leg_length_signs',
        anyOf: ['new_or_growing', 'after_surgery_or_fracture', 'back_or_hip_pain', 'weak_or_numb'],
      },
      { all: [{ yes: 'leg_lengths_differ' }, { fact: 'age_years', below: 18 }] },
    ],
  },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'wedge_or_shim'),
  messageForClient:
    'Please ask your doctor or a physiotherapist about the leg-length difference first. We do not even it out until then.',
  messageForStaff:
    'Leg-length difference of 20 mm or more, new, growing, after surgery or fracture, under 18, or with pain or nerve signs: GP or physiotherapist. No shims.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'study',
    citation: 'Applebaum et al. 2021, Clin Orthop Surg 13:127–34 (20 mm); the rest: common practice',
  },
} as const satisfies Rule;
