import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import { requireErrors, requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';

/** Landmarks of one foot in its shoe, along the sole from the heel end of the shoe. */
export interface FootLandmarks {
  /** First metatarsal head. 80–350. */
  readonly mth1FromHeelMm: number;
  /** Fifth metatarsal head; it lies behind the first, or beside it. 50–350. */
  readonly mth5FromHeelMm: number;
  /** Rear of the heel bone: what the shoe adds behind it. 0–40. */
  readonly heelBoneFromHeelMm: number;
}

/** House rule: standard deviation of a landmark felt through the shoe. */
export const usualLandmarkErrors: FootLandmarks = {
  mth1FromHeelMm: 3,
  mth5FromHeelMm: 4,
  heelBoneFromHeelMm: 2,
};

/** A place for the spindle that somebody published or the trade uses. None is called right. */
export interface CleatPlaceRule {
  readonly id: 'under-first-head' | 'between-heads' | 'under-fifth-head' | 'quarter-to-heel' | 'half-to-heel';
  readonly source: string;
  /** From the heel end of the shoe. */
  readonly placeMm: (foot: FootLandmarks) => number;
}

const tested = 'Van Sickle & Hull 2007, J Biomech 40:1262–1267';
const practice = 'common practice, no source';
const towardsHeel = (foot: FootLandmarks, share: number): number =>
  foot.mth1FromHeelMm - share * (foot.mth1FromHeelMm - foot.heelBoneFromHeelMm);

export const cleatPlaceRules: readonly CleatPlaceRule[] = [
  {
    id: 'under-first-head',
    source: `${tested}: the traditional place`,
    placeMm: (foot) => foot.mth1FromHeelMm,
  },
  {
    id: 'between-heads',
    source: practice,
    placeMm: (foot) => (foot.mth1FromHeelMm + foot.mth5FromHeelMm) / 2,
  },
  { id: 'under-fifth-head', source: practice, placeMm: (foot) => foot.mth5FromHeelMm },
  {
    id: 'quarter-to-heel',
    source: `${tested}: the middle place tested`,
    placeMm: (foot) => towardsHeel(foot, 1 / 4),
  },
  {
    id: 'half-to-heel',
    source: `${tested}: the rear place tested`,
    placeMm: (foot) => towardsHeel(foot, 1 / 2),
  },
];

export interface CleatPlace {
  readonly rule: CleatPlaceRule['id'];
  readonly source: string;
  /** From the heel end of the shoe. */
  readonly cleatFromHeelMm: Uncertain;
}

/**
 * Every place for the spindle under one foot that has a rule, side by side.
 *
 * @returns mm from the heel end of the shoe, front to back
 * @throws FitMathError naming the landmark outside its range, or a fifth head more than 20 mm in front of the first
 * @source `cleatPlaceRules`
 * @check outside/feet: Van Sickle & Hull 2007, 49 and 97 mm; Ramos-Ortega et al. 2012
 * @tolerance 0.5 mm; 8 mm
 * @example cleatPlaces({ mth1FromHeelMm: 203, mth5FromHeelMm: 179, heelBoneFromHeelMm: 8 }).places[1]?.cleatFromHeelMm;
 *   // { value: 191, sd: 2.5 }
 */
export function cleatPlaces(
  foot: FootLandmarks,
  errors: FootLandmarks = usualLandmarkErrors,
): { readonly formulaVersion: string; readonly places: readonly CleatPlace[] } {
  requireFoot('', foot);
  requireErrors('errors', errors, 100);
  const places = cleatPlaceRules.map(({ id, source, placeMm }) => ({
    rule: id,
    source,
    cleatFromHeelMm: propagate({ ...foot }, { ...errors }, placeMm),
  }));
  return { formulaVersion, places };
}

/** @throws FitMathError naming the landmark, after `prefix` */
export function requireFoot(prefix: string, foot: FootLandmarks): void {
  requireRange(`${prefix}mth1FromHeelMm`, foot.mth1FromHeelMm, 80, 350);
  requireRange(`${prefix}mth5FromHeelMm`, foot.mth5FromHeelMm, 50, 350);
  requireRange(`${prefix}heelBoneFromHeelMm`, foot.heelBoneFromHeelMm, 0, 40);
  if (foot.mth5FromHeelMm > foot.mth1FromHeelMm + 20) {
    throw new FitMathError(
      'input.out-of-range',
      `${prefix}mth5FromHeelMm`,
      'behind the first head, or in front of it by 20 mm at most: were the two read the wrong way round?',
    );
  }
}
