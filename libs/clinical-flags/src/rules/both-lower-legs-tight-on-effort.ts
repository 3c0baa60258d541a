import { barsNothing, type Rule } from '../rule.js';

export const bothLowerLegsTightOnEffort = {
  id: 'both-lower-legs-tight-on-effort',
  version: 1,
  area: 'compartment',
  raisedWhen: { yes: 'both_lower_legs_tight_on_effort' },
  route: 'physiotherapist_or_podiatrist',
  permission: barsNothing,
  messageForClient:
    'Please ask your doctor or a physiotherapist about a sports-medicine opinion. Stop riding as soon as the tightness begins.',
  messageForStaff:
    'Both lower legs tight at a fixed effort, easing with rest: sports medicine through GP or physiotherapist. Stop at onset.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: {
    strength: 'study',
    citation: 'Pedowitz et al. 1990; reviews (eases with about twenty minutes of rest)',
  },
} as const satisfies Rule;
