import { FitMathError } from '../errors.js';
import { lengthUnits, measurementKind, type MeasurementKindId, type Unit } from './measurement-kinds.js';
import { unitRatio } from './units.js';

export interface ReadMeasurement {
  /** Mean of the readings, in the unit the kind is kept in. */
  readonly mean: number;
  /** Standard error of that mean, same unit. */
  readonly error: number;
  /** Why the value is implausible; null when it is not. */
  readonly warning: string | null;
}

/**
 * Take one to five readings of the same thing: converted, checked against what is possible and plausible, averaged.
 * The error of the mean is the larger of the kind's usual error and the spread of the readings, over the root of
 * their number: the spread of so few readings says little by itself.
 *
 * @throws FitMathError when the unit does not measure the kind, or a reading is impossible
 * @source standard error of a mean; taking the larger of the two: house rule
 * @check src/quantities/read-measurement: by hand
 * @tolerance 1e-10
 * @example readMeasurement('thigh_length', [41.2, 41.6], 'cm').mean; // 414
 */
export function readMeasurement(
  kindId: MeasurementKindId,
  readings: readonly number[],
  unit: Unit,
): ReadMeasurement {
  const kind = measurementKind(kindId);
  if ((unit === 'deg') !== (kind.keptIn === 'deg')) {
    throw new FitMathError(
      'input.out-of-range',
      'unit',
      kind.keptIn === 'deg' ? 'deg' : lengthUnits.join(', '),
    );
  }
  if (readings.length < 1 || readings.length > 5) {
    throw new FitMathError('input.out-of-range', 'repeats', 'from 1 to 5 readings');
  }
  const [lowest, highest] = kind.possible;
  const kept = readings.map((reading, index) => {
    const value = unit === 'deg' ? reading : reading * unitRatio('length', unit, 'mm');
    if (!(value >= lowest && value <= highest)) {
      throw new FitMathError(
        'input.out-of-range',
        `repeats.${index}`,
        `from ${lowest} to ${highest} ${kind.keptIn} for ${kind.name.toLowerCase()}`,
      );
    }
    return value;
  });
  const n = kept.length;
  const mean = kept.reduce((sum, value) => sum + value, 0) / n;
  const spread = n === 1 ? 0 : Math.sqrt(kept.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
  const [low, high] = kind.plausible;
  return {
    mean,
    error: Math.max(spread, kind.usualError) / Math.sqrt(n),
    warning:
      mean >= low && mean <= high
        ? null
        : `${kind.name}: ${mean.toFixed(0)} ${kind.keptIn} is outside ${low} to ${high} (${kind.plausibleSource}). Measure again.`,
  };
}
