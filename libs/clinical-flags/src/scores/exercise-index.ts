import type { Clinician } from '../finding.js';
import { limitedTo } from '../rule.js';
import {
  ClinicianInputInvalid,
  raisedBy,
  requireClinician,
  requireWhole,
  type ClinicianScore,
} from './clinician.js';

/** Indices of one leg with at most two decimals, 0 to 3; pressures in whole mmHg where they were taken. */
export interface ExerciseValues {
  readonly restIndex: number;
  /** One minute after maximal effort. */
  readonly afterIndex: number;
  readonly otherLegAfterIndex?: number;
  readonly restAnkleMmHg?: number;
  readonly afterAnkleMmHg?: number;
}

export interface ExerciseIndex extends ClinicianScore {
  readonly fallsByMoreThanTwentyPercent: boolean;
  /** Null: ankle pressures were not given. */
  readonly fallsByMoreThan30MmHg: boolean | null;
  readonly below066: boolean;
  /** Null: the other leg was not given. */
  readonly legsDifferByMoreThan018: boolean | null;
}

/**
 * What pressures after exercise add. Any one criterion goes to a vascular specialist by way of the GP; where they
 * disagree that is no "negative", and none met takes nothing away. The criteria agree poorly, and most healthy young
 * adults fall by more than a fifth (Kyte et al. 2023), so a fall is a reason to ask, not a result.
 *
 * @throws ClinicianInputInvalid for a value out of range or with more than two decimals, or a clinician not named
 * @source AHA 2012: fall by more than 20 % or more than 30 mmHg. Below 0.66 one minute after maximal cycling: review of
 *   iliac endofibrosis to 2021 (all of 24 detailed cases). Difference above 0.18: secondary source only, weak.
 */
export function exerciseIndex(values: ExerciseValues, clinician: Clinician): ExerciseIndex {
  requireClinician(clinician);
  const rest = hundredths('restIndex', values.restIndex);
  const after = hundredths('afterIndex', values.afterIndex);
  const other =
    values.otherLegAfterIndex === undefined
      ? null
      : hundredths('otherLegAfterIndex', values.otherLegAfterIndex);
  const { restAnkleMmHg, afterAnkleMmHg } = values;
  const fallMmHg =
    restAnkleMmHg === undefined || afterAnkleMmHg === undefined
      ? null
      : requireWhole('restAnkleMmHg', restAnkleMmHg, 0, 300) -
        requireWhole('afterAnkleMmHg', afterAnkleMmHg, 0, 300);
  const criteria = {
    fallsByMoreThanTwentyPercent: (rest - after) * 5 > rest,
    fallsByMoreThan30MmHg: fallMmHg === null ? null : fallMmHg > 30,
    below066: after < 66,
    legsDifferByMoreThan018: other === null ? null : Math.abs(after - other) > 18,
  };
  const met = Object.values(criteria).includes(true);
  const finding = raisedBy(clinician, {
    ruleId: 'clinician-exercise-index',
    area: 'artery',
    route: 'gp_for_vascular_specialist',
    permission: limitedTo('hard_effort', 'provocation_test'),
    messageForClient:
      'Please ask your doctor whether a blood-vessel specialist should look at this. Until then we fit without hard efforts.',
    messageForStaff:
      'By the clinician’s pressures after exercise: GP asking for a vascular specialist. Open the hip angle; no maximal effort.',
    wouldChange: 'A vascular assessment, recorded as a clearance.',
    source: {
      strength: 'study',
      citation:
        'AHA 2012 (20 %, 30 mmHg); review of iliac endofibrosis to 2021 (0.66); between legs 0.18: secondary source only',
    },
  });
  return { ...criteria, findings: met ? [finding] : [] };
}

/** An index in whole hundredths. */
function hundredths(field: string, value: number): number {
  const whole = Math.round(value * 100);
  // As decimal text, so that 1.1 and 1.10 pass and 1.105 does not.
  if (!(value >= 0 && value <= 3) || Number((whole / 100).toFixed(2)) !== value) {
    throw new ClinicianInputInvalid(field, 'must be an index from 0 to 3 with at most two decimals');
  }
  return whole;
}
