import { radiansOf } from '../angles.js';
import { requireRange } from '../require-range.js';

export interface WindOnRoad {
  /** Along the road against the rider; negative = from behind. */
  readonly headwindMps: number;
  /** Across the road; positive = from the rider's right. */
  readonly crosswindMps: number;
}

/**
 * The wind split along and across the road.
 *
 * @param windMps at the height of the rider. 0–40
 * @param fromDeg direction the wind comes **from**, clockwise from north. −360–360
 * @param travelDeg direction the rider goes **to**, clockwise from north. −360–360
 * @throws FitMathError naming the input outside its range
 * @source Martin et al. 1998, J Appl Biomech 14(3):276–291
 * @check outside/air: air speed and yaw of the Martin et al. 1998 example, recomputed
 * @tolerance 0.0001 m/s; 0.001°
 * @example windOnRoad(2.94, 310, 340).headwindMps; // 2.5461…
 */
export function windOnRoad(windMps: number, fromDeg: number, travelDeg: number): WindOnRoad {
  requireRange('windMps', windMps, 0, 40);
  const between = radiansOf(
    requireRange('fromDeg', fromDeg, -360, 360) - requireRange('travelDeg', travelDeg, -360, 360),
  );
  return { headwindMps: windMps * Math.cos(between), crosswindMps: windMps * Math.sin(between) };
}
