import { limitedTo, type Rule } from '../rule.js';

export const saddleNumbnessThatRepeats = {
  id: 'saddle-numbness-that-repeats',
  version: 1,
  area: 'nerve',
  raisedWhen: { any: [{ yes: 'saddle_numb_despite_changes' }, { yes: 'pelvic_pain_sitting' }] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'saddle_trial'),
  messageForClient: 'Please ask your doctor about this. Until then we keep time in the saddle short.',
  messageForStaff: 'Saddle numbness in spite of changes, or pain on sitting: GP; no long saddle trials.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: {
    strength: 'study',
    citation:
      'Labat et al. 2008, Neurourol Urodyn 27:306–10 (that pattern needs a clinician); route: common practice',
  },
} as const satisfies Rule;
