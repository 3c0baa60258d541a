import {
  measurementKind,
  readMeasurement,
  readQuantity,
  type MeasurementKind,
  type ReadMeasurement,
  type Unit,
} from '@studio/fit-math';
import { InvalidRequest } from '../../http/problem.js';
import { WrongSide } from './fit-sessions.errors.js';
import type { MeasurementRequest } from './measurements.dto.js';

export interface Readings extends ReadMeasurement {
  readonly repeats: number[];
  readonly unit: Unit;
  readonly typed: string[] | null;
}

/**
 * What was measured, in the unit its kind is kept in; what was typed stays beside it.
 *
 * @throws WrongSide, InvalidRequest for a number without a unit, and FitMathError for a reading that cannot be read or
 *   cannot be
 */
export function readReadings({ kind: id, side, repeats, unit }: MeasurementRequest): Readings {
  const kind = measurementKind(id);
  if (kind.sided !== (side !== undefined)) throw new WrongSide(kind.sided);
  const numbers = repeats.filter((reading) => typeof reading === 'number');
  if (numbers.length > 0 && unit === undefined) {
    throw new InvalidRequest([{ field: 'unit', message: 'is needed beside numbers' }]);
  }
  if (unit !== undefined && numbers.length === repeats.length) {
    return { ...readMeasurement(id, numbers, unit), repeats: numbers, unit, typed: null };
  }
  const typed = repeats.map((reading) =>
    typeof reading === 'number' ? `${reading} ${unit ?? ''}` : reading,
  );
  const read = typed.map((text, place) => readText(kind, text, unit, `repeats.${place}`));
  return { ...readMeasurement(id, read, kind.keptIn), repeats: read, unit: kind.keptIn, typed };
}

function readText({ keptIn }: MeasurementKind, text: string, unit: Unit | undefined, field: string): number {
  return keptIn === 'deg'
    ? readQuantity(field, text, 'angle', unit === 'deg' ? unit : undefined)
    : readQuantity(field, text, 'length', unit === 'deg' ? undefined : unit);
}
