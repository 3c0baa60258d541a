import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import { requireRoad, steadyPedalW, type RiderOnRoad, type Road } from './road-power.js';

const fastestMps = 60;

/**
 * The steady speed a power holds.
 *
 * The resistance grows with speed while the push of a given power falls, so there is one such speed; it is found by
 * halving an interval, which needs no starting guess and cannot diverge downhill or in a strong wind from behind.
 *
 * @param powerW at the pedals, above 0. 1–2500
 * @returns ground speed in m/s, 0–60
 * @throws FitMathError when an input is out of range or the speed is beyond 60 m/s or below 0.05 m/s
 * @source roadPower solved for speed
 * @check outside/air: five powers worked apart; src/air/air: undone by the power at that speed
 * @tolerance 0.001 km/h; 0.0001 W
 * @example steadySpeedMps({ totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 }, { gradient: 0,
 *   airDensityKgPerM3: 1.2, wind: { headwindMps: 0, crosswindMps: 0 } }, 250); // 10.330…
 */
export function steadySpeedMps(rider: RiderOnRoad, road: Road, powerW: number): number {
  requireRoad(rider, road);
  requireRange('powerW', powerW, 1, 2500);
  let slow = 0.05;
  let fast = fastestMps;
  if (steadyPedalW(rider, road, slow) > powerW || steadyPedalW(rider, road, fast) < powerW) {
    throw new FitMathError(
      'target.not-reachable',
      'powerW',
      `a power that holds a speed from ${slow} to ${fast} m/s on this road`,
    );
  }
  // 48 halvings of 60 m/s leave less than a millionth of a micrometre a second.
  for (let i = 0; i < 48; i += 1) {
    const middle = (slow + fast) / 2;
    if (steadyPedalW(rider, road, middle) < powerW) slow = middle;
    else fast = middle;
  }
  return (slow + fast) / 2;
}
