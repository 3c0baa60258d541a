import type { Clinician } from '../finding.js';
import { barsEverything } from '../rule.js';
import { raisedBy, requireClinician, requireWhole, type ClinicianScore } from './clinician.js';

interface Steps {
  /** Four steps, limping allowed: right after the injury, and now. */
  readonly fourStepsAtOnce: boolean;
  readonly fourStepsNow: boolean;
}

export interface AnkleAndFoot extends Steps {
  readonly painAtMalleoli: boolean;
  readonly boneTenderLateralMalleolus: boolean;
  readonly boneTenderMedialMalleolus: boolean;
  readonly painMidfoot: boolean;
  readonly boneTenderFifthMetatarsalBase: boolean;
  readonly boneTenderNavicular: boolean;
}

export interface Knee extends Steps {
  readonly ageYears: number;
  readonly onlyPatellaTender: boolean;
  readonly fibularHeadTender: boolean;
  readonly bendsToRightAngle: boolean;
}

export interface InjuryCriteria extends ClinicianScore {
  /** Whether the criterion for an X-ray is met. */
  readonly met: boolean;
}

/**
 * Ankle and midfoot after an acute injury, adults: each zone counts only with pain in it.
 *
 * @throws ClinicianInputInvalid for a clinician not named
 * @source Stiell et al. 1992–94 (Ottawa ankle rules)
 */
export function ankleInjuryCriteria(found: AnkleAndFoot, clinician: Clinician): InjuryCriteria {
  requireClinician(clinician);
  const cannotStep = !found.fourStepsAtOnce && !found.fourStepsNow;
  const ankle =
    found.painAtMalleoli &&
    (found.boneTenderLateralMalleolus || found.boneTenderMedialMalleolus || cannotStep);
  const foot =
    found.painMidfoot && (found.boneTenderFifthMetatarsalBase || found.boneTenderNavicular || cannotStep);
  return judged(ankle || foot, clinician);
}

/**
 * Knee after an acute injury, adults.
 *
 * @throws ClinicianInputInvalid for an age that is not whole from 18 to 120, or a clinician not named
 * @source Stiell et al. 1995, Ann Emerg Med 26:405–13 (Ottawa knee rule; 55 years or older, some copies misprint it)
 */
export function kneeInjuryCriteria(found: Knee, clinician: Clinician): InjuryCriteria {
  requireClinician(clinician);
  const met =
    requireWhole('ageYears', found.ageYears, 18, 120) >= 55 ||
    found.onlyPatellaTender ||
    found.fibularHeadTender ||
    !found.bendsToRightAngle ||
    (!found.fourStepsAtOnce && !found.fourStepsNow);
  return judged(met, clinician);
}

function judged(met: boolean, clinician: Clinician): InjuryCriteria {
  const finding = raisedBy(clinician, {
    ruleId: 'clinician-injury-criteria',
    area: 'joint_and_bone',
    route: 'same_day_medical',
    permission: barsEverything,
    messageForClient: 'Please have the injury looked at by a doctor today, and do not ride until then.',
    messageForStaff: 'By the clinician’s examination: same-day medical assessment with X-ray. No riding.',
    wouldChange: 'A doctor’s assessment, recorded as a clearance.',
    source: { strength: 'study', citation: 'Stiell et al. 1992–95, Ottawa ankle and knee rules' },
  });
  return { met, findings: met ? [finding] : [] };
}
