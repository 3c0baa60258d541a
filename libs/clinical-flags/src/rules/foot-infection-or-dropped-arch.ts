import { limitedTo, type Rule } from '../rule.js';

export const footInfectionOrDroppedArch = {
  id: 'foot-infection-or-dropped-arch',
  version: 1,
  area: 'foot_and_skin',
  raisedWhen: { fact: 'foot_signs', anyOf: ['infected_nail', 'arch_dropped'] },
  route: 'gp_within_days',
  permission: limitedTo('hard_effort', 'cleat_change', 'wedge_or_shim', 'shoe_work'),
  messageForClient:
    'Please see your doctor or a podiatrist about your foot within days. Until then we leave shoes and cleats as they are.',
  messageForStaff:
    'Infected nail or skin, or a dropped arch: urgent podiatry through the GP. No change at the foot.',
  wouldChange: 'The doctor’s answer, recorded as a clearance.',
  source: { strength: 'guideline', citation: 'NHS Borders podiatry pathway (urgent)' },
} as const satisfies Rule;
