import type { RideSample } from '../ride-recording.js';
import { metresBetween, placeOf } from './place.js';

/**
 * Metres ridden from the first to the last of these samples: by the device's distance; where it has none, by place.
 *
 * @param samples in order
 * @returns null when neither is known at both ends
 */
export function travelledM(samples: readonly RideSample[]): number | null {
  const first = samples[0];
  const last = samples.at(-1);
  if (first === undefined || last === undefined) return null;
  if (first.distanceM !== null && last.distanceM !== null) return last.distanceM - first.distanceM;
  if (placeOf(first) === null || placeOf(last) === null) return null;
  const places = samples.map(placeOf).filter((place) => place !== null);
  return places.reduce((sum, place, i) => sum + metresBetween(places[i - 1] ?? place, place), 0);
}
