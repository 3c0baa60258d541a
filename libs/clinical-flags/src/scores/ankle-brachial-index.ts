import type { Clinician, Finding } from '../finding.js';
import { limitedTo, type Route } from '../rule.js';
import { raisedBy, requireClinician, requireWhole, type ClinicianScore } from './clinician.js';

/** Systolic pressures lying down, by Doppler, whole mmHg. Arms 1 to 300, ankle 0 to 300. */
export interface RestingPressures {
  readonly armRightMmHg: number;
  readonly armLeftMmHg: number;
  readonly dorsalisPedisMmHg: number;
  readonly posteriorTibialMmHg: number;
}

export type AbiBand = 'abnormal' | 'borderline' | 'normal' | 'non_compressible';

export interface AnkleBrachialIndex extends ClinicianScore {
  /** The index in hundredths, rounded half up: 90 is 0.90. Exact, no binary fractions. */
  readonly hundredths: number;
  readonly band: AbiBand;
}

const source = {
  strength: 'guideline',
  citation: 'AHA/ACC 2016 and ACC/AHA 2024 (bands, exercise index); Aboyans et al. 2012 for the method',
} as const;

/**
 * The resting index of one leg: the higher ankle pressure over the higher arm pressure, two decimals, then its band.
 * A normal value never closes anything: with symptoms on effort it still goes to a doctor.
 *
 * @throws ClinicianInputInvalid for a pressure that is missing, not whole or out of range, or a clinician not named
 * @source AHA/ACC 2016: ≤ 0.90 abnormal, 0.91–0.99 borderline, 1.00–1.40 normal, > 1.40 not compressible
 */
export function ankleBrachialIndex(
  pressures: RestingPressures,
  symptomsOnEffort: boolean,
  clinician: Clinician,
): AnkleBrachialIndex {
  requireClinician(clinician);
  const right = requireWhole('armRightMmHg', pressures.armRightMmHg, 1, 300);
  const left = requireWhole('armLeftMmHg', pressures.armLeftMmHg, 1, 300);
  const dorsalis = requireWhole('dorsalisPedisMmHg', pressures.dorsalisPedisMmHg, 0, 300);
  const tibial = requireWhole('posteriorTibialMmHg', pressures.posteriorTibialMmHg, 0, 300);
  const arm = Math.max(right, left);
  // floor(100 a / b + 1/2) in whole numbers.
  const hundredths = Math.floor((200 * Math.max(dorsalis, tibial) + arm) / (2 * arm));
  const band = bandOf(hundredths);
  const findings = [
    ...routed(band, symptomsOnEffort, clinician),
    ...(Math.abs(right - left) > 15 ? [armsDiffer(clinician)] : []),
  ];
  return { hundredths, band, findings };
}

function bandOf(hundredths: number): AbiBand {
  if (hundredths <= 90) return 'abnormal';
  if (hundredths <= 99) return 'borderline';
  return hundredths <= 140 ? 'normal' : 'non_compressible';
}

function routed(band: AbiBand, symptomsOnEffort: boolean, clinician: Clinician): Finding[] {
  const raised = (route: Route, asks: string): Finding[] => [
    raisedBy(clinician, {
      ruleId: 'clinician-ankle-brachial-index',
      area: 'artery',
      route,
      permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
      messageForClient:
        'Please see your doctor about the blood supply of your legs. Until then we fit without hard efforts and leave your shoes as they are.',
      messageForStaff: `By the clinician’s pressures: GP, ${asks}. No hard effort, no shoe work.`,
      wouldChange: 'A vascular assessment, recorded as a clearance.',
      source,
    }),
  ];
  switch (band) {
    case 'abnormal':
      return raised('gp_for_vascular_specialist', 'asking for a vascular specialist');
    case 'non_compressible':
      return raised('gp_within_days', 'asking for toe pressures');
    case 'borderline':
    case 'normal':
      return symptomsOnEffort ? raised('gp_within_days', 'asking for pressures after exercise') : [];
  }
}

const armsDiffer = (clinician: Clinician): Finding =>
  raisedBy(clinician, {
    ruleId: 'clinician-arm-pressures-differ',
    area: 'artery',
    route: 'gp_within_days',
    permission: limitedTo('hard_effort', 'provocation_test'),
    messageForClient:
      'Please tell your doctor that the pressures of your arms differ. Until then we fit without hard efforts.',
    messageForStaff: 'Arm pressures differ by more than 15 mmHg: GP. No hard effort.',
    wouldChange: 'The doctor’s answer, recorded as a clearance.',
    source: {
      strength: 'common practice',
      citation: 'common practice; more than 15 mmHg is a value from memory',
    },
  });
