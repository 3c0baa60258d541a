import { barsNothing, type Rule } from '../rule.js';

export const legArteryOperationCleared = {
  id: 'leg-artery-operation-cleared',
  version: 1,
  area: 'after_surgery',
  raisedWhen: { all: [{ yes: 'leg_artery_operated' }, { yes: 'leg_artery_surgeon_agrees' }] },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient: 'We fit you within what your surgeon allowed. Please tell us those limits.',
  messageForStaff:
    'Operated leg or groin vessel, cleared: fit within the surgeon’s limits; keep the hip angle open. Re-ask the leg questions every time.',
  wouldChange: 'New leg signs; other limits from the surgeon.',
  source: { strength: 'common practice', citation: 'common practice, no source' },
} as const satisfies Rule;
