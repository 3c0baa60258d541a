import { limitedTo, type Rule } from '../rule.js';

export const oneLegFadesOnHardEffort = {
  id: 'one-leg-fades-on-hard-effort',
  version: 1,
  area: 'artery',
  raisedWhen: { all: [{ yes: 'one_leg_fades_on_hard_effort' }, { yes: 'one_leg_settles_at_rest' }] },
  route: 'gp_for_vascular_specialist',
  permission: limitedTo('hard_effort', 'provocation_test'),
  messageForClient:
    'Please ask your doctor whether a blood-vessel specialist should look at this. Until then we fit without hard efforts.',
  messageForStaff:
    'One leg hurts or loses power on hard effort and settles at rest: GP asking for a vascular specialist. Open the hip angle; no maximal effort, no provocation.',
  wouldChange:
    'A vascular assessment with pressures after exercise; a normal resting value does not settle it.',
  source: {
    strength: 'study',
    citation: 'Bender, Schep et al. 2004, Sports Med 34:427–42; Lim et al. 2009, Eur J Vasc Endovasc Surg',
  },
} as const satisfies Rule;
