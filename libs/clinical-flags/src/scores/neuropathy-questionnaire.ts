import type { Clinician } from '../finding.js';
import { limitedTo } from '../rule.js';
import { ClinicianInputInvalid, raisedBy, requireClinician, type ClinicianScore } from './clinician.js';

export interface NeuropathyScore extends ClinicianScore {
  /** From 0 to 13. */
  readonly score: number;
}

/** Items scored by yes; 7 and 13 score by no; 4 and 10 do not score. */
const byYes: readonly number[] = [1, 2, 3, 5, 6, 8, 9, 11, 12, 14, 15];
const byNo: readonly number[] = [7, 13];

/**
 * The fifteen answers of the Michigan neuropathy screening questionnaire, by its official key. With diabetes four or
 * more, and of anyone seven or more, go to a doctor and a podiatrist. Fewer take nothing away.
 *
 * @param yes the answers to items 1 to 15, in their order
 * @throws ClinicianInputInvalid unless there are fifteen answers and a clinician is named
 * @source Feldman et al. 1994 (7 or more); Herman et al. 2012, Diabet Med 29:937–44 (4 or more studied). Free to use.
 */
export function neuropathyQuestionnaire(
  yes: readonly boolean[],
  hasDiabetes: boolean,
  clinician: Clinician,
): NeuropathyScore {
  requireClinician(clinician);
  if (yes.length !== 15) throw new ClinicianInputInvalid('yes', 'must be fifteen answers');
  const answer = (item: number): boolean => yes[item - 1] === true;
  const score = byYes.filter(answer).length + byNo.filter((item) => !answer(item)).length;
  const finding = raisedBy(clinician, {
    ruleId: 'clinician-neuropathy-questionnaire',
    area: 'diabetes',
    route: 'gp_within_days',
    permission: limitedTo('hard_effort', 'provocation_test', 'cleat_change', 'wedge_or_shim', 'shoe_work'),
    messageForClient:
      'Please have your doctor and a podiatrist look at the feeling in your feet. Until then we leave shoes and cleats as they are.',
    messageForStaff:
      'By the clinician’s questionnaire: GP and podiatrist. No wedges, no shoe work, no tight shoe.',
    wouldChange: 'The doctor’s or podiatrist’s answer, recorded as a clearance.',
    source: { strength: 'study', citation: 'Feldman et al. 1994; Herman et al. 2012, Diabet Med 29:937–44' },
  });
  return { score, findings: score >= (hasDiabetes ? 4 : 7) ? [finding] : [] };
}
