import { barsEverything, type Rule } from '../rule.js';

export const oneLegDoesNotSettle = {
  id: 'one-leg-does-not-settle',
  version: 1,
  area: 'artery',
  raisedWhen: { all: [{ yes: 'one_leg_fades_on_hard_effort' }, { no: 'one_leg_settles_at_rest' }] },
  route: 'same_day_medical',
  permission: barsEverything,
  messageForClient:
    'Please be seen by a doctor today about that leg, and do not ride until then. If it is cold, pale or numb now, call your local emergency number.',
  messageForStaff:
    'One leg fails on hard effort and does not settle within minutes: same-day medical assessment. Cold, pale or numb: emergency now.',
  wouldChange: 'A doctor’s assessment, recorded as a clearance.',
  source: {
    strength: 'common practice',
    citation:
      'common practice (cautious): the published story settles within minutes (Bender, Schep et al. 2004); what does not is not that story',
  },
} as const satisfies Rule;
