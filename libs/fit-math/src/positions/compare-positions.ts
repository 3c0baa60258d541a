import { requireRange } from '../require-range.js';
import {
  positionError,
  positionFields,
  type MeasuringMethod,
  type PositionFieldId,
} from './position-fields.js';

/** A figure as it was measured; absent or null = it was not. */
export interface PositionFigures {
  readonly values: Readonly<Partial<Record<PositionFieldId, number | null>>>;
  /** By what each was measured; absent = not told, taken for a careful reading. */
  readonly methods: Readonly<Partial<Record<PositionFieldId, MeasuringMethod>>>;
}

export interface PositionDifference {
  readonly field: PositionFieldId;
  readonly unit: 'mm' | 'deg';
  readonly from: number | null;
  readonly to: number | null;
  /** `to` less `from`; null when one of them was not measured. */
  readonly change: number | null;
  /** Standard deviation that measuring alone gives the change; null as above. */
  readonly sd: number | null;
  /** Whether measuring the same twice would give as much in 19 of 20; null as above. */
  readonly withinError: boolean | null;
}

/**
 * What differs between two positions, figure by figure; those measured in neither are left out.
 *
 * @returns mm or degrees, in the order of `positionFields`
 * @throws FitMathError naming the figure outside its range
 * @source JCGM 100:2008 (GUM), section 5.1.2: independent errors add as squares; the errors themselves: house rule
 * @check src/positions/positions: by hand, turned round
 * @tolerance exact
 * @example comparePositions({ values: { saddleHeightMm: 740 }, methods: {} }, { values: { saddleHeightMm: 725 },
 *   methods: {} })[0].change; // -15
 */
export function comparePositions(from: PositionFigures, to: PositionFigures): readonly PositionDifference[] {
  return positionFields.flatMap(({ id, unit, possible: [least, greatest] }) => {
    const before = from.values[id] ?? null;
    const after = to.values[id] ?? null;
    if (before === null && after === null) return [];
    if (before !== null) requireRange(`from.${id}`, before, least, greatest);
    if (after !== null) requireRange(`to.${id}`, after, least, greatest);
    const both = before !== null && after !== null;
    const change = both ? after - before : null;
    const sd = both
      ? Math.hypot(positionError(id, from.methods[id] ?? null), positionError(id, to.methods[id] ?? null))
      : null;
    const withinError = change === null || sd === null ? null : Math.abs(change) <= 1.96 * sd;
    return [{ field: id, unit, from: before, to: after, change, sd, withinError }];
  });
}
