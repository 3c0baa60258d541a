import { barsNothing, type Rule } from '../rule.js';

export const achillesPain = {
  id: 'achilles-pain',
  version: 1,
  area: 'joint_and_bone',
  raisedWhen: { someSite: { fact: 'complaint_quality', anyOf: ['pain'] }, at: ['achilles'] },
  route: 'physiotherapist_or_podiatrist',
  permission: barsNothing,
  messageForClient: 'Please have a physiotherapist look at your Achilles tendon. We fit you with easy load.',
  messageForStaff:
    'Achilles pain, able to push off: physiotherapist for loading exercise; easy load, cleat not too far forward.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: {
    strength: 'guideline',
    citation:
      'Martin et al. 2018, J Orthop Sports Phys Ther 48:A1–38 (loading exercise); cause by the bike: no source',
  },
} as const satisfies Rule;
