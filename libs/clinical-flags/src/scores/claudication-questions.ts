import type { Clinician } from '../finding.js';
import { limitedTo } from '../rule.js';
import { raisedBy, requireClinician, type ClinicianScore } from './clinician.js';

export type WalkingPainSite = 'calf' | 'thigh' | 'buttock' | 'hamstring' | 'shin' | 'foot' | 'joint';

/** What a clinician learned of pain on walking. Own wording; the logic is a published fact. */
export interface WalkingPain {
  readonly onWalking: boolean;
  readonly startsStandingOrSitting: boolean;
  readonly uphillOrHurrying: boolean;
  readonly atOrdinaryPace: boolean;
  readonly onStandingStill: 'gone_within_ten_minutes' | 'lasts_longer';
  readonly sites: readonly WalkingPainSite[];
}

export interface ClaudicationAnswer extends ClinicianScore {
  readonly pattern: 'definite' | 'atypical' | 'negative';
  /** 1: uphill or hurrying only; 2: at an ordinary pace too. Null when negative. */
  readonly grade: 1 | 2 | null;
}

/**
 * The logic of the Edinburgh questions on walking pain. A negative misses about half of those it looks for and more in
 * diabetes, so it takes nothing away; it says nothing of a leg that fails on hard effort only.
 *
 * @throws ClinicianInputInvalid for a clinician not named
 * @source Leng & Fowkes 1992, J Clin Epidemiol 45:1101–9; Boylan et al. 2021, Angiology 72:474–9 (sensitivity 52.5 %)
 */
export function claudicationQuestions(pain: WalkingPain, clinician: Clinician): ClaudicationAnswer {
  requireClinician(clinician);
  const inPattern =
    pain.onWalking &&
    !pain.startsStandingOrSitting &&
    pain.uphillOrHurrying &&
    pain.onStandingStill === 'gone_within_ten_minutes';
  const at = (site: WalkingPainSite): boolean => pain.sites.includes(site);
  const pattern = !inPattern
    ? 'negative'
    : at('calf')
      ? 'definite'
      : at('thigh') || at('buttock')
        ? 'atypical'
        : 'negative';
  const finding = raisedBy(clinician, {
    ruleId: 'clinician-claudication-questions',
    area: 'artery',
    route: 'gp_for_vascular_specialist',
    permission: limitedTo('hard_effort', 'provocation_test', 'shoe_work'),
    messageForClient:
      'Please ask your doctor about the leg pain on walking. Until then we fit without hard efforts and leave your shoes as they are.',
    messageForStaff:
      'By the clinician’s questions: GP, asking for a vascular opinion. No hard effort, no shoe work.',
    wouldChange: 'A vascular assessment, recorded as a clearance.',
    source: { strength: 'study', citation: 'Leng & Fowkes 1992, J Clin Epidemiol 45:1101–9' },
  });
  if (pattern === 'negative') return { pattern, grade: null, findings: [] };
  return { pattern, grade: pain.atOrdinaryPace ? 2 : 1, findings: [finding] };
}
