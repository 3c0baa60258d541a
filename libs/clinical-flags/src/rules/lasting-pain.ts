import { limitedTo, type Rule } from '../rule.js';

export const lastingPain = {
  id: 'lasting-pain',
  version: 1,
  area: 'general',
  raisedWhen: {
    any: [
      { yes: 'unchanged_after_two_fits' },
      {
        someSite: {
          all: [
            { fact: 'complaint_quality', anyOf: ['pain'] },
            {
              any: [
                { fact: 'complaint_worst', atLeast: 5 },
                { fact: 'complaint_duration', anyOf: ['over_six_weeks'] },
                { fact: 'complaint_when', anyOf: ['daily_life'] },
              ],
            },
          ],
        },
      },
    ],
  },
  route: 'physiotherapist_or_podiatrist',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient: 'Please have a physiotherapist look at this. Until then we fit without hard efforts.',
  messageForStaff:
    'Pain of six weeks or longer, of 5 of 10 or more, off the bike too, or unchanged after two fits: physiotherapist. No hard effort.',
  wouldChange: 'A physiotherapist’s or podiatrist’s answer, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation: 'common practice; six weeks: NHS Gloucestershire foot pathway',
  },
} as const satisfies Rule;
