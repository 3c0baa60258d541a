/** From values to places on the paper, evenly. */
export interface Scale {
  readonly at: (value: number) => number;
  /** Round values along it. */
  readonly ticks: readonly number[];
  readonly low: number;
  readonly high: number;
}

/**
 * A scale that holds all values, its ends at round numbers.
 *
 * @param values at least one is finite, or the scale runs from 0 to 1
 * @param from place of the low end
 * @param to place of the high end
 * @param most ticks wished for
 */
export function scaleFor(values: readonly number[], from: number, to: number, most = 6): Scale {
  const finite = values.filter(Number.isFinite);
  const least = finite.length === 0 ? 0 : finite.reduce((one, other) => Math.min(one, other));
  const largest = finite.length === 0 ? 1 : finite.reduce((one, other) => Math.max(one, other));
  const size = Math.max(Math.abs(least), Math.abs(largest));
  // Values nearer to one another than their digits can tell are one value, and next to nothing is nothing.
  const distinct = largest - least > 1e-9 * Math.max(1, size);
  const spread = distinct ? largest - least : size > 1e-9 ? size : 1;
  const step = roundStep(spread / most);
  const low = Math.floor(least / step) * step;
  const high = Math.max(Math.ceil(largest / step) * step, low + step);
  const count = Math.round((high - low) / step);
  return {
    low,
    high,
    at: (value) => from + ((value - low) / (high - low)) * (to - from),
    ticks: Array.from({ length: count + 1 }, (_, index) => withoutDust(low + index * step)),
  };
}

/** 1, 2 or 5 times a power of ten, not below. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5, 10].find((factor) => factor * power >= least * 0.999) ?? 10) * power;
}

const withoutDust = (value: number): number => Number(value.toPrecision(12));
