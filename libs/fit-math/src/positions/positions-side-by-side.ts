import { comparePositions, type PositionFigures } from './compare-positions.js';
import { positionFields, type PositionFieldId } from './position-fields.js';

export interface SideBySide {
  readonly field: PositionFieldId;
  readonly unit: 'mm' | 'deg';
  readonly first: number | null;
  readonly second: number | null;
  /** `second` less `first`; null when one of them is not known. */
  readonly difference: number | null;
  /** As the second is set at present; null: not known. */
  readonly now: number | null;
  /** `second` less `now`: what is to be changed to get there; null when one of them is not known. */
  readonly toChange: number | null;
  /** Whether measuring the same twice would give as much as `toChange` in 19 of 20; null as that. */
  readonly withinError: boolean | null;
}

/**
 * Two positions of a rider beside each other, and how far the second is from being set like that.
 *
 * @param now the second as it was measured; null: it was not
 * @returns mm or degrees, in the order of `positionFields`; without figures known of neither
 * @throws FitMathError naming the figure outside its range
 * @source as comparePositions
 * @check src/positions/positions-side-by-side: by hand
 * @tolerance exact
 * @example
 * positionsSideBySide(
 *   { values: { saddleHeightMm: 740 }, methods: {} },
 *   { values: { saddleHeightMm: 726 }, methods: {} },
 *   { values: { saddleHeightMm: 731 }, methods: {} },
 * )[0];
 * // { field: 'saddleHeightMm', first: 740, second: 726, difference: -14, now: 731, toChange: -5, withinError: false }
 */
export function positionsSideBySide(
  first: PositionFigures,
  second: PositionFigures,
  now: PositionFigures | null,
): readonly SideBySide[] {
  const differences = comparePositions(first, second);
  const changes = now === null ? [] : comparePositions(now, second);
  return positionFields.flatMap(({ id, unit }) => {
    const difference = differences.find(({ field }) => field === id);
    const change = changes.find(({ field }) => field === id);
    if (!difference && !change) return [];
    return [
      {
        ...{ field: id, unit, first: difference?.from ?? null },
        ...{ second: difference?.to ?? change?.to ?? null, difference: difference?.change ?? null },
        ...{ now: change?.from ?? null, toChange: change?.change ?? null },
        withinError: change?.withinError ?? null,
      },
    ];
  });
}
