import { barsNothing, type Rule } from '../rule.js';

export const mildPainOnTheBike = {
  id: 'mild-pain-on-the-bike',
  version: 1,
  area: 'general',
  raisedWhen: {
    someSite: {
      all: [
        { fact: 'complaint_quality', anyOf: ['pain'] },
        { fact: 'complaint_worst', below: 5 },
        { fact: 'complaint_when', onlyOf: ['riding', 'hard_efforts', 'after_riding'] },
        { fact: 'complaint_duration', anyOf: ['under_two_weeks', 'two_to_six_weeks'] },
      ],
    },
  },
  route: 'fit_with_caution',
  permission: barsNothing,
  messageForClient:
    'We change one thing at a time and look at it again. Tell us if the pain grows or stays off the bike.',
  messageForStaff:
    'Mild pain on the bike for less than six weeks: fit with caution; one change at a time, saddle steps of at most 4 % of leg length.',
  wouldChange: 'Pain at rest, of 5 or more, rising, or of six weeks.',
  source: {
    strength: 'study',
    citation: 'Bini et al. 2011, Sports Med 41:463–76 (saddle steps); route: common practice',
  },
} as const satisfies Rule;
