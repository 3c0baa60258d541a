import type { RideRecording } from '../ride-recording.js';

export interface Span {
  readonly fromSecond: number;
  /** Not counted. */
  readonly toSecond: number;
}

export interface Sprint {
  readonly method: 'sprint from one value a second';
  /** Share of the peak that power has to stay above from onset to peak. */
  readonly onsetShareOfPeak: number;
  readonly peak1sW: number | null;
  /** The first second that reaches the peak. */
  readonly peakSecond: number | null;
  /** Highest mean of 5 seconds in a row; null when no 5 in a row are known. */
  readonly peak5sW: number | null;
  /** First second of the rise that leads to the peak; null when its beginning was not recorded. */
  readonly onsetSecond: number | null;
  /** Whole seconds, give or take `timeToPeakErrorS`. */
  readonly timeToPeakS: number | null;
  /** From onset on, J; null when a second of it is not known. */
  readonly workFirst5sJ: number | null;
  readonly sentence: string;
}

/** House rule; no single rule is published for one value a second. */
export const usualOnsetShareOfPeak = 0.5;

/**
 * 95 % of readings lie within this of the true time to peak, from the rounding of both stamps alone: each is uniform
 * over a second, so the standard deviation of their difference is √(1/6) = 0.41 s.
 */
export const timeToPeakErrorS = 1.96 * Math.sqrt(1 / 6);

/** The same for the difference of two tests: ±1.1 s, before any variation of the rider. */
export const timeToPeakChangeErrorS = timeToPeakErrorS * Math.SQRT2;

/**
 * Peak and rise of a sprint.
 *
 * Onset: the first second of the last rise above the given share of the peak, that is, the start of the unbroken run
 * of seconds above it that ends in the peak. Missing seconds are not bridged.
 *
 * @param span where to look; the whole ride is `{ fromSecond: 0, toSecond: ride.durationS }`
 * @param onsetShareOfPeak 0–1, both excluded
 * @throws RangeError when the share is out of range
 * @source peak over 5 s: Hachana et al. 2012, J Strength Cond Res 26:1324–1330; onset rule: house rule
 * @example sprint(ride, { fromSecond: 0, toSecond: ride.durationS }, usualOnsetShareOfPeak).peak5sW;
 */
export function sprint(ride: RideRecording, span: Span, onsetShareOfPeak: number): Sprint {
  if (!(onsetShareOfPeak > 0 && onsetShareOfPeak < 1))
    throw new RangeError('the share must lie between 0 and 1');
  const power = new Map<number, number>();
  let peak1sW = 0;
  let peakSecond: number | null = null;
  for (const { second, powerW } of ride.samples) {
    if (powerW === null || second < span.fromSecond || second >= span.toSecond) continue;
    power.set(second, powerW);
    if (powerW > peak1sW) {
      peak1sW = powerW;
      peakSecond = second;
    }
  }
  const common = { method: 'sprint from one value a second', onsetShareOfPeak } as const;
  if (peakSecond === null) {
    return {
      ...common,
      peak1sW: null,
      peakSecond,
      peak5sW: null,
      onsetSecond: null,
      timeToPeakS: null,
      workFirst5sJ: null,
      sentence: 'No sprint: no power was recorded here.',
    };
  }
  const fiveFrom = (second: number): number | null => {
    const five = [0, 1, 2, 3, 4].map((i) => power.get(second + i));
    return five.every((watts) => watts !== undefined) ? five.reduce((sum, watts) => sum + watts, 0) : null;
  };
  const fives = [...power.keys()].map(fiveFrom).filter((work) => work !== null);
  const peak5sW = fives.length === 0 ? null : fives.reduce((best, work) => Math.max(best, work), 0) / 5;
  const onsetSecond = onsetBefore(power, peakSecond, onsetShareOfPeak * peak1sW);
  const timeToPeakS = onsetSecond === null ? null : peakSecond - onsetSecond;
  const workFirst5sJ = onsetSecond === null ? null : fiveFrom(onsetSecond);
  const peaks = `peak ${peak1sW.toFixed(0)} W over 1 s${peak5sW === null ? '' : `, ${peak5sW.toFixed(0)} W over 5 s`}`;
  const rise =
    timeToPeakS === null
      ? 'its beginning was not recorded'
      : `reached ${timeToPeakS} s after onset, give or take ${timeToPeakErrorS.toFixed(1)} s`;
  const sentence = `Sprint: ${peaks}; ${rise}.`;
  return { ...common, peak1sW, peakSecond, peak5sW, onsetSecond, timeToPeakS, workFirst5sJ, sentence };
}

function onsetBefore(
  power: ReadonlyMap<number, number>,
  peakSecond: number,
  thresholdW: number,
): number | null {
  for (let second = peakSecond; ; second -= 1) {
    const before = power.get(second - 1);
    if (before === undefined) return null;
    if (before < thresholdW) return second;
  }
}

export type TimeToPeakVerdict = 'sooner' | 'later' | 'cannot tell';

/**
 * Whether the peak came sooner or later than in another sprint: only beyond what one value a second can tell.
 *
 * @example compareTimeToPeak(4, 5); // 'cannot tell'
 */
export function compareTimeToPeak(beforeS: number | null, afterS: number | null): TimeToPeakVerdict {
  if (beforeS === null || afterS === null) return 'cannot tell';
  const change = afterS - beforeS;
  if (Math.abs(change) <= timeToPeakChangeErrorS) return 'cannot tell';
  return change < 0 ? 'sooner' : 'later';
}
