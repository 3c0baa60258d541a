import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import { courseTime, type Stretch } from './course-time.js';
import {
  dragAreaChangeM2,
  requireEstimate,
  usualSilhouette,
  type Estimate,
  type Silhouette,
} from './drag-area-change.js';
import type { RiderOnRoad } from './road-power.js';

export interface LoweringInput {
  /** The rider before the change. */
  readonly rider: RiderOnRoad;
  /** Standard deviation of the rider's drag area. 0–0.2. */
  readonly dragAreaSdM2: number;
  /** Saddle and bars both, vertical; negative = raised. −200–200. */
  readonly loweredMm: number;
  readonly silhouette?: Silhouette;
  readonly course: readonly Stretch[];
  /** 1–2500. */
  readonly powerW: number;
}

export interface LoweringGain {
  readonly formulaVersion: string;
  readonly dragAreaChangeM2: Estimate;
  /** Positive = faster after the change. */
  readonly timeSavedS: Estimate;
  readonly meanSpeedGainMps: Estimate;
  readonly durationBeforeS: Estimate;
  /** The whole range of the change is smaller than what two runs of the same position differ by. */
  readonly lessThanOneRunToRunError: boolean;
  readonly cautions: readonly Caution[];
}

/**
 * What one run and the next of an unchanged position may differ by in drag area: 1.96 √2 times the pooled within-
 * position standard deviation of 0.01125 m². From the repeated runs of one rider published as open data with
 * SportsEngineering/forearms-advantage-model; derived.
 */
export const runToRunDragAreaM2 = 1.96 * Math.SQRT2 * 0.01125;

const toBeConfirmed: Caution = {
  code: 'confirm-on-the-road',
  text: 'An estimate from the strip of silhouette that is lost. Confirm it on the road before counting on it.',
};
const belowRunToRun: Caution = {
  code: 'less-than-run-to-run-error',
  text: 'Less than one run-to-run error: a single ride before and after cannot show it.',
};
const powerMayFall: Caution = {
  code: 'power-assumed-kept',
  text: 'Computed at the same power. A torso bent lower can cost power; here it keeps its angle.',
};

/**
 * Time and speed that lowering saddle and bars together may be worth over a course at the same power.
 *
 * The range holds the range of the drag area's change and two standard deviations of the rider's drag area either
 * way; it reaches to nothing gained.
 *
 * @throws FitMathError naming the input outside its range
 * @source dragAreaChangeM2 and courseTime
 * @check nothing published to hold it to; src/air/air: range, sign and run-to-run error
 * @tolerance exact
 * @example loweringGain({ rider: { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 }, dragAreaSdM2: 0.02,
 *   loweredMm: 14, course: [{ lengthM: 40000, gradient: 0, airDensityKgPerM3: 1.2, wind: { headwindMps: 0,
 *   crosswindMps: 0 } }], powerW: 250 }).timeSavedS.estimate; // 17.3…
 */
export function loweringGain(input: LoweringInput): LoweringGain {
  const { rider, course, powerW, loweredMm } = input;
  requireRange('dragAreaSdM2', input.dragAreaSdM2, 0, 0.2);
  const change = dragAreaChangeM2(loweredMm, input.silhouette ?? usualSilhouette);
  const spread = 2 * input.dragAreaSdM2;
  const dragAreaM2 = {
    estimate: rider.dragAreaM2,
    low: rider.dragAreaM2 - spread,
    high: rider.dragAreaM2 + spread,
  };
  // The rider after the change must be one too, at every corner of the ranges.
  requireEstimate('dragAreaM2', dragAreaM2, 0.1 - Math.min(0, change.low), 1.5 - Math.max(0, change.high));

  const ride = (area: number) => courseTime({ ...rider, dragAreaM2: area }, course, powerW);
  const gain = (area: number, areaChange: number) => {
    const before = ride(area);
    const after = ride(area + areaChange);
    return {
      timeSavedS: before.durationS - after.durationS,
      meanSpeedGainMps: after.meanSpeedMps - before.meanSpeedMps,
    };
  };
  const best = gain(dragAreaM2.estimate, change.estimate);
  const corners = [dragAreaM2.low, dragAreaM2.high].flatMap((area) => [
    gain(area, change.low),
    gain(area, change.high),
  ]);
  const lessThanOneRunToRunError = Math.max(Math.abs(change.low), Math.abs(change.high)) < runToRunDragAreaM2;
  return {
    formulaVersion,
    dragAreaChangeM2: change,
    timeSavedS: rangeOf(
      best.timeSavedS,
      corners.map(({ timeSavedS }) => timeSavedS),
    ),
    meanSpeedGainMps: rangeOf(
      best.meanSpeedGainMps,
      corners.map(({ meanSpeedGainMps }) => meanSpeedGainMps),
    ),
    durationBeforeS: {
      estimate: ride(dragAreaM2.estimate).durationS,
      low: ride(dragAreaM2.low).durationS,
      high: ride(dragAreaM2.high).durationS,
    },
    lessThanOneRunToRunError,
    cautions: [toBeConfirmed, powerMayFall, ...(lessThanOneRunToRunError ? [belowRunToRun] : [])],
  };
}

function rangeOf(estimate: number, corners: readonly number[]): Estimate {
  return { estimate, low: Math.min(...corners), high: Math.max(...corners) };
}
