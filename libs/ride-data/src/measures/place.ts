import type { RideSample } from '../ride-recording.js';

export interface Place {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** IUGG mean radius. */
const earthRadiusM = 6_371_008.8;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

export function placeOf({ latitudeDeg, longitudeDeg }: RideSample): Place | null {
  return latitudeDeg === null || longitudeDeg === null ? null : { latitudeDeg, longitudeDeg };
}

/** North and east of `from`, on the plane that touches the earth there; for distances of a ride. */
function offset(from: Place, to: Place): { readonly northM: number; readonly eastM: number } {
  const middle = radians((from.latitudeDeg + to.latitudeDeg) / 2);
  const turns = (to.longitudeDeg - from.longitudeDeg) / 360;
  return {
    northM: earthRadiusM * radians(to.latitudeDeg - from.latitudeDeg),
    eastM: earthRadiusM * 2 * Math.PI * (turns - Math.round(turns)) * Math.cos(middle),
  };
}

export function metresBetween(from: Place, to: Place): number {
  const { northM, eastM } = offset(from, to);
  return Math.hypot(northM, eastM);
}

/** Clockwise from north, −180–180. */
export function bearingDeg(from: Place, to: Place): number {
  const { northM, eastM } = offset(from, to);
  return (Math.atan2(eastM, northM) * 180) / Math.PI;
}
