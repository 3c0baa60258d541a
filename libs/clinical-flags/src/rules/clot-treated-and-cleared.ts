import { limitedTo, type Rule } from '../rule.js';

export const clotTreatedAndCleared = {
  id: 'clot-treated-and-cleared',
  version: 1,
  area: 'clot',
  raisedWhen: { all: [{ fact: 'medical_conditions', anyOf: ['clot'] }, { yes: 'clot_cleared' }] },
  route: 'fit_with_caution',
  permission: limitedTo('shoe_work'),
  messageForClient:
    'We fit you with care and leave your shoes unmodified. Tell us at once of swelling or pain in a leg.',
  messageForStaff:
    'A treated clot, cleared: fit with caution; no drilling or trials on the foot. Re-ask the leg questions every time.',
  wouldChange: 'Leg signs; a clinician’s word on shoe work.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
