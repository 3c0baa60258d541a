import type { RideRecording, RideSample } from '../ride-recording.js';
import type { CoursePass } from './course.js';
import { bearingDeg, placeOf } from './place.js';

/** What was entered about the day; null = not known, which is not calm. */
export interface Conditions {
  readonly airDensityKgPerM3: number | null;
  /** At the height of the rider. */
  readonly windMps: number | null;
  /** Where it came from, clockwise from north. */
  readonly windFromDeg: number | null;
}

export type KnownConditions = { readonly [K in keyof Conditions]: number };

/** One second of riding. */
export interface Moment {
  readonly speedMps: number;
  readonly fromMps: number;
  readonly toMps: number;
  readonly durationS: number;
  /** Rise over run. */
  readonly gradient: number;
  /** Where the rider went to, clockwise from north. */
  readonly travelDeg: number;
}

/** Power at the pedals to ride so; straight in the drag area, as air resistance is. W. */
export type PedalPowerModel = (dragAreaM2: number, conditions: KnownConditions, moment: Moment) => number;

export type DragAreaReason =
  | 'air density or wind not known'
  | 'too much wind'
  | 'power not known throughout'
  | 'speed, place or height not known throughout'
  | 'too slow for air to tell'
  | 'too short'
  | 'no drag area a rider can have';

export interface DragArea {
  readonly dragAreaM2: number | null;
  /** Why there is none. */
  readonly reason: DragAreaReason | null;
}

/**
 * House rules for data that can carry a drag area: half a metre per second of wind or a twentieth of a percent of
 * gradient, neglected, already cost about a tenth of it (Roa et al. 2021, Sports Biomech,
 * doi 10.1080/14763141.2020.1837925).
 */
export const dragAreaNeeds = {
  mostWindMps: 3,
  leastCoverage: 0.99,
  leastMeanSpeedMps: 8,
  leastSpeedMps: 3,
  leastDurationS: 120,
  plausibleM2: { low: 0.1, high: 0.8 },
} as const;

/**
 * The drag area at which the work the pass needed is the work that was measured, where the data can carry it.
 *
 * Brakes and drafting are not seen: use a course without either. The rise from start to end is spread evenly, as only
 * its sum counts.
 *
 * @param model of the rider's power on the road, closed over mass and rolling resistance
 * @source energy balance of Martin et al. 1998, J Appl Biomech 14:276–291, when the model is theirs
 * @example dragAreaOf(ride, pass, conditions, model).dragAreaM2;
 */
export function dragAreaOf(
  ride: RideRecording,
  pass: CoursePass,
  conditions: Conditions,
  model: PedalPowerModel,
): DragArea {
  const known = knownConditions(conditions);
  if (known === null) return unknown('air density or wind not known');
  if (known.windMps > dragAreaNeeds.mostWindMps) return unknown('too much wind');
  if (pass.powerCoverage < dragAreaNeeds.leastCoverage) return unknown('power not known throughout');
  if (pass.durationS < dragAreaNeeds.leastDurationS) return unknown('too short');
  if (pass.meanSpeedMps < dragAreaNeeds.leastMeanSpeedMps) return unknown('too slow for air to tell');

  const samples = ride.samples.filter(({ second }) => second >= pass.fromSecond && second <= pass.toSecond);
  const moments = momentsOf(samples, pass);
  if (moments === null) return unknown('speed, place or height not known throughout');
  if (moments.some(({ fromMps }) => fromMps < dragAreaNeeds.leastSpeedMps))
    return unknown('too slow for air to tell');

  const needed = (dragAreaM2: number): number =>
    moments.reduce((sum, moment) => sum + model(dragAreaM2, known, moment) * moment.durationS, 0);
  const { low, high } = dragAreaNeeds.plausibleM2;
  const [workAtLow, workAtHigh] = [needed(low), needed(high)];
  const measured = (pass.meanPowerW ?? 0) * pass.durationS;
  const dragAreaM2 = low + ((high - low) * (measured - workAtLow)) / (workAtHigh - workAtLow);
  return dragAreaM2 > low && dragAreaM2 < high
    ? { dragAreaM2, reason: null }
    : unknown('no drag area a rider can have');
}

const unknown = (reason: DragAreaReason): DragArea => ({ dragAreaM2: null, reason });

function knownConditions({ airDensityKgPerM3, windMps, windFromDeg }: Conditions): KnownConditions | null {
  if (airDensityKgPerM3 === null || windMps === null) return null;
  // Still air comes from nowhere.
  if (windFromDeg === null && windMps > 0) return null;
  return { airDensityKgPerM3, windMps, windFromDeg: windFromDeg ?? 0 };
}

/** From each second to the next; null when a second, a speed, a place or the rise is missing. */
function momentsOf(samples: readonly RideSample[], { riseM, lengthM }: CoursePass): Moment[] | null {
  if (riseM === null) return null;
  const moments: Moment[] = [];
  for (const [i, to] of samples.entries()) {
    const from = samples[i - 1];
    if (from === undefined) continue;
    const fromPlace = placeOf(from);
    const toPlace = placeOf(to);
    if (to.second !== from.second + 1 || fromPlace === null || toPlace === null) return null;
    if (from.speedMps === null || to.speedMps === null) return null;
    moments.push({
      speedMps: (from.speedMps + to.speedMps) / 2,
      fromMps: from.speedMps,
      toMps: to.speedMps,
      durationS: 1,
      gradient: riseM / lengthM,
      travelDeg: bearingDeg(fromPlace, toPlace),
    });
  }
  return moments;
}
