import type { Clinician } from '../finding.js';
import { barsEverything, limitedTo } from '../rule.js';
import {
  ClinicianInputInvalid,
  raisedBy,
  requireClinician,
  requireWhole,
  type ClinicianScore,
} from './clinician.js';

/** What was found on history and examination. The items are facts; the wording is our own. */
export interface DvtFindings {
  /** Under treatment, treated within six months, or palliative. */
  readonly activeCancer: boolean;
  readonly paralysisOrRecentLegCast: boolean;
  readonly inBedForThreeDays: boolean;
  /** Since major surgery under general or regional anaesthesia; null when there was none. */
  readonly weeksSinceMajorSurgery: number | null;
  readonly tenderAlongDeepVeins: boolean;
  readonly entireLegSwollen: boolean;
  /** By how much the calf is thicker than the other, ten centimetres below the tibial tuberosity, 0 to 200. */
  readonly calfThickerMm: number;
  readonly pittingOedemaOfThatLegOnly: boolean;
  readonly collateralSuperficialVeins: boolean;
  readonly previousDvt: boolean;
  /** Another explanation is at least as likely: minus two. */
  readonly otherExplanationAsLikely: boolean;
}

export interface DvtScore extends ClinicianScore {
  /** From −2 to 9. */
  readonly score: number;
  readonly level: 'likely' | 'unlikely';
}

const source = {
  strength: 'guideline',
  citation:
    'Wells et al. 2003, N Engl J Med 349:1227–35 (two levels); NICE NG158. The score alone rules nothing out.',
} as const;

/**
 * The two-level score of 2003, worked out from a clinician's examination. Likely goes the same day; unlikely goes to a
 * doctor within days, since the score alone rules nothing out.
 *
 * @throws ClinicianInputInvalid for a value out of range or a clinician not named
 * @source Wells et al. 2003, N Engl J Med 349:1227–35; NICE NG158. Not the score of 1997: that takes four weeks after
 *   surgery, knows no previous DVT and has three levels.
 */
export function twoLevelDvtScore(found: DvtFindings, clinician: Clinician): DvtScore {
  requireClinician(clinician);
  const weeks = found.weeksSinceMajorSurgery;
  if (weeks !== null && !(Number.isFinite(weeks) && weeks >= 0)) {
    throw new ClinicianInputInvalid(
      'weeksSinceMajorSurgery',
      'must be a number of weeks, 0 or more, or null',
    );
  }
  const items = [
    found.activeCancer,
    found.paralysisOrRecentLegCast,
    found.inBedForThreeDays || (weeks !== null && weeks <= 12),
    found.tenderAlongDeepVeins,
    found.entireLegSwollen,
    requireWhole('calfThickerMm', found.calfThickerMm, 0, 200) >= 30,
    found.pittingOedemaOfThatLegOnly,
    found.collateralSuperficialVeins,
    found.previousDvt,
  ];
  const score = items.filter(Boolean).length - (found.otherExplanationAsLikely ? 2 : 0);
  const level = score >= 2 ? 'likely' : 'unlikely';
  const finding =
    level === 'likely'
      ? raisedBy(clinician, {
          ruleId: 'clinician-dvt-score',
          area: 'clot',
          route: 'same_day_medical',
          permission: barsEverything,
          messageForClient: 'Please have your leg looked at by a doctor today, and do not ride until then.',
          messageForStaff:
            'By the clinician’s examination: same-day medical assessment. No riding, no massage.',
          wouldChange: 'Imaging or a doctor’s assessment, recorded as a clearance.',
          source,
        })
      : raisedBy(clinician, {
          ruleId: 'clinician-dvt-score',
          area: 'clot',
          route: 'gp_within_days',
          permission: limitedTo('hard_effort', 'provocation_test'),
          messageForClient:
            'Please see your doctor about your leg within days. Until then we fit without hard efforts.',
          messageForStaff:
            'The clinician’s examination rules nothing out: GP within days; what the screening raises besides stands.',
          wouldChange: 'A doctor’s assessment, recorded as a clearance.',
          source,
        });
  return { score, level, findings: [finding] };
}
