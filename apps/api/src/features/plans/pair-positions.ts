import {
  partsToChange,
  positionFieldIds,
  positionsSideBySide,
  saddleChange,
  secondPosition,
  transferPosition,
  type Caution,
  type FootAndCrankChange,
  type PartsOfBike,
  type PositionFigures,
  type RiderErrors,
  type RiderOnBike,
  type SecondPositionInput,
  type TransferInput,
} from '@studio/fit-math';
import type { PositionResponse } from '../fit-sessions/index.js';
import type { BuildListResponse } from './paired-positions.dto.js';

/** Everything a pair is worked out from, and what is kept of it. */
export interface PairInput {
  /** Null where cleat, crank and sole are the same: then nothing of the leg is asked. */
  readonly leg: { readonly rider: RiderOnBike; readonly errors: RiderErrors } | null;
  readonly change: FootAndCrankChange;
  readonly carryOver: Omit<SecondPositionInput, 'saddleChangeMm'>;
  /** The second as it was measured. */
  readonly now: PositionFigures | null;
  readonly firstMethods: PositionFigures['methods'];
  readonly onSecondBike: PartsOfBike;
  /** What can be had; its contact points follow from the position. */
  readonly search: ((second: PositionFigures['values']) => TransferInput) | null;
}

const remeasure: Caution = {
  code: 'foot-pitch-drifts',
  text: 'Computed with the foot held as on the first. It drifts after such a change: measure again on the second.',
};
const notBuilt: Caution = {
  code: 'check-before-riding',
  text: 'Worked out, not ridden: set it up, check that nothing touches and that both feet release, and measure it.',
};

/** What to set on the second and which parts to change for it, with the first beside it. */
export function pairPositions(input: PairInput): BuildListResponse {
  const { leg, change, carryOver, now, firstMethods, onSecondBike, search } = input;
  const saddleChangeMm = leg ? saddleChange(leg.rider, change, leg.errors) : { value: 0, sd: 0 };
  const second = secondPosition({ ...carryOver, saddleChangeMm: saddleChangeMm.value });
  const transfer = search ? transferPosition(search(second)) : null;
  return {
    sideBySide: positionsSideBySide(
      { values: carryOver.first, methods: firstMethods },
      { values: second, methods: {} },
      now,
    ),
    saddleChangeMm,
    partsToChange: partsToChange(onSecondBike, transfer?.builds[0] ?? null, carryOver.crankLengthMm),
    transfer,
    cautions: [...(leg ? [remeasure] : []), notBuilt, ...(transfer?.cautions ?? [])],
  };
}

export const figuresOf = (position: PositionResponse): PositionFigures => ({
  values: Object.fromEntries(positionFieldIds.map((id) => [id, position[id]])),
  methods: position.methods,
});
