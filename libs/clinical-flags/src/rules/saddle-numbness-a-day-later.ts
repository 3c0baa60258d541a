import { barsEverything, type Rule } from '../rule.js';

export const saddleNumbnessADayLater = {
  id: 'saddle-numbness-a-day-later',
  version: 2,
  area: 'spine',
  raisedWhen: {
    any: [
      { yes: 'saddle_numb_day_after' },
      {
        someSite: {
          all: [
            { fact: 'complaint_quality', anyOf: ['numbness'] },
            { fact: 'complaint_when', anyOf: ['at_rest', 'daily_life'] },
          ],
        },
        at: ['saddle_area'],
      },
    ],
  },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient: 'Please have this looked at by a doctor today, and do not ride until then.',
  messageForStaff:
    'Saddle area still numb a day after riding, or without riding: same-day medical assessment before any saddle trial.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation:
      'common practice; true loss of feeling can have a sacral-root cause (NHS Gloucestershire notes on the Nantes criteria)',
  },
} as const satisfies Rule;
