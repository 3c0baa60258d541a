import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { sideDifference } from '../repeats/side-difference.js';
import type { Uncertain } from '../uncertainty.js';
import {
  cleatPlaceRules,
  cleatPlaces,
  requireFoot,
  usualLandmarkErrors,
  type CleatPlaceRule,
  type FootLandmarks,
} from './cleat-places.js';
import { solveSaddleChanges, usualErrors, type RiderErrors, type RiderOnBike } from './saddle-change.js';

export interface BothFeet {
  readonly left: FootLandmarks;
  readonly right: FootLandmarks;
  readonly rule: CleatPlaceRule['id'];
  readonly landmarkErrors?: FootLandmarks;
  /** Each leg with its cleat at its own place, for what the compromise asks of the saddle. */
  readonly riders?: { readonly left: RiderOnBike; readonly right: RiderOnBike };
  readonly riderErrors?: RiderErrors;
}

export interface CleatsForBothFeet {
  readonly formulaVersion: string;
  /** Each foot its own place, from the heel end of its own shoe. */
  readonly own: { readonly left: Uncertain; readonly right: Uncertain };
  /** Left place less right: how far the cleats are staggered, positive = left farther forward in its shoe. */
  readonly stagger: { readonly differenceMm: Uncertain; readonly beyondError: boolean };
  /** One place for both shoes, half-way between. */
  readonly compromise: {
    readonly cleatFromHeelMm: Uncertain;
    /** Compromise less own place: negative = farther back than the foot’s own. */
    readonly leftOffMm: number;
    readonly rightOffMm: number;
    /** Saddle change each leg would ask for if its cleat went there; negative = lower. Null without riders. */
    readonly saddleHeightChangeMm: { readonly left: Uncertain; readonly right: Uncertain } | null;
  };
  readonly cautions: readonly Caution[];
}

const withinError: Caution = {
  code: 'within-error',
  text: 'The two places differ by no more than measuring does: no ground for setting the cleats apart.',
};
const lookForWhy: Caution = {
  code: 'stagger',
  text: 'Cleats set apart change both legs’ reach. Compare the knees of both sides riding before and after.',
};

/**
 * Feet of unequal length: where each cleat goes by its own foot, how far that sets them apart, and what one place for
 * both would cost each foot and leg.
 *
 * @throws FitMathError naming the side and the landmark, or as `saddleChange`
 * @source `cleatPlaceRules` and `saddleChange`; half-way as the compromise is a house rule
 * @check src/cleats/feet: mirrored with the feet; legs as `saddleChange`
 * @tolerance exact
 * @example cleatsForBothFeet({ left: { mth1FromHeelMm: 203, mth5FromHeelMm: 179, heelBoneFromHeelMm: 8 },
 *   right: { mth1FromHeelMm: 191, mth5FromHeelMm: 169, heelBoneFromHeelMm: 8 }, rule: 'under-first-head' }).stagger;
 *   // { differenceMm: { value: 12, sd: 4.24… }, beyondError: true }
 */
export function cleatsForBothFeet(feet: BothFeet): CleatsForBothFeet {
  const { left, right, rule, landmarkErrors = usualLandmarkErrors, riders } = feet;
  requireFoot('left.', left);
  requireFoot('right.', right);
  const place = cleatPlaceRules.findIndex(({ id }) => id === rule);
  const ownPlace = (foot: FootLandmarks): Uncertain =>
    cleatPlaces(foot, landmarkErrors).places[place]?.cleatFromHeelMm as Uncertain;
  const own = { left: ownPlace(left), right: ownPlace(right) };
  const { difference, beyondError } = sideDifference(own.left, own.right);
  const halfway = (own.left.value + own.right.value) / 2;
  const offMm = { left: halfway - own.left.value, right: halfway - own.right.value };
  const saddle = (rider: RiderOnBike, off: number): Uncertain => {
    const { changes } = solveSaddleChanges(
      rider,
      [{ cleatBackMm: 0 - off }],
      feet.riderErrors ?? usualErrors,
    );
    return changes[0]?.saddleHeightChangeMm as Uncertain;
  };
  return {
    formulaVersion,
    own,
    stagger: { differenceMm: difference, beyondError },
    compromise: {
      cleatFromHeelMm: { value: halfway, sd: difference.sd / 2 },
      leftOffMm: offMm.left,
      rightOffMm: offMm.right,
      saddleHeightChangeMm: riders
        ? { left: saddle(riders.left, offMm.left), right: saddle(riders.right, offMm.right) }
        : null,
    },
    cautions: [beyondError ? lookForWhy : withinError],
  };
}
