import { degreesOf } from '../angles.js';
import { requireRange } from '../require-range.js';
import type { WindOnRoad } from './wind.js';

/** Rider and bike together, as the road feels them. */
export interface RiderOnRoad {
  /** Rider, bike, clothing, bottles. 30–250. */
  readonly totalMassKg: number;
  /** Drag area of rider and bike at the yaw ridden. 0.1–1.5. */
  readonly dragAreaM2: number;
  /** Rolling resistance over weight. 0–0.03. */
  readonly rollingCoefficient: number;
}

export interface Road {
  /** Rise over run. −0.25–0.25. */
  readonly gradient: number;
  /** 0.3–1.6. */
  readonly airDensityKgPerM3: number;
  readonly wind: WindOnRoad;
}

export interface RoadPower {
  readonly airW: number;
  readonly rollingW: number;
  readonly bearingsW: number;
  readonly climbingW: number;
  readonly acceleratingW: number;
  /** What the rider must put into the pedals: the sum over the drivetrain's efficiency. Negative = braking. */
  readonly pedalW: number;
  /** Along the road; negative = the air overtakes the rider. */
  readonly airSpeedMps: number;
  /** Of the air to the road; positive = from the right. −180–180. */
  readonly yawDeg: number;
}

const gravityMps2 = 9.81;
const drivetrainEfficiency = 0.976;
/** What turning wheels add to the drag area. */
const wheelDragAreaM2 = 0.0044;
/** Both wheels' moment of inertia over their radius squared: 0.14 kg m² and 0.311 m. */
const wheelInertiaKg = 0.14 / 0.311 ** 2;

/**
 * Power to ride at a speed, term by term.
 *
 * Where a wind from behind is faster than the rider the air pushes, so the air term is negative; the published
 * equation squares the air speed and does not say so.
 *
 * @param speedMps mean ground speed. 0–60
 * @param acceleration speeds at both ends of the stretch and its duration, when the speed is not steady
 * @throws FitMathError naming the input outside its range
 * @source Martin, Milliken, Cobb, McFadden, Coggan 1998, J Appl Biomech 14(3):276–291
 * @check outside/air: worked example in the appendix of Martin et al. 1998
 * @tolerance 0.15 W a term, 0.2 W in all
 * @example roadPower({ totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 }, { gradient: 0,
 *   airDensityKgPerM3: 1.2, wind: { headwindMps: 0, crosswindMps: 0 } }, 10).pedalW; // 228.5…
 */
export function roadPower(
  rider: RiderOnRoad,
  road: Road,
  speedMps: number,
  acceleration?: { readonly fromMps: number; readonly toMps: number; readonly durationS: number },
): RoadPower {
  requireRoad(rider, road);
  requireRange('speedMps', speedMps, 0, 60);
  const { airN, rollingN, bearingsN, climbingN } = forcesAt(rider, road, speedMps);
  const acceleratingW = acceleration ? kineticW(rider.totalMassKg, acceleration) : 0;
  const airW = airN * speedMps;
  const rollingW = rollingN * speedMps;
  const bearingsW = bearingsN * speedMps;
  const climbingW = climbingN * speedMps;
  const airSpeedMps = speedMps + road.wind.headwindMps;
  return {
    airW,
    rollingW,
    bearingsW,
    climbingW,
    acceleratingW,
    pedalW: (airW + rollingW + bearingsW + climbingW + acceleratingW) / drivetrainEfficiency,
    airSpeedMps,
    yawDeg: degreesOf(Math.atan2(road.wind.crosswindMps, airSpeedMps)),
  };
}

/** Pedal power of steady riding from inputs already checked; for solvers. */
export function steadyPedalW(rider: RiderOnRoad, road: Road, speedMps: number): number {
  const { airN, rollingN, bearingsN, climbingN } = forcesAt(rider, road, speedMps);
  return ((airN + rollingN + bearingsN + climbingN) * speedMps) / drivetrainEfficiency;
}

/** @throws FitMathError naming the first input outside its range */
export function requireRoad(rider: RiderOnRoad, road: Road): void {
  requireRange('totalMassKg', rider.totalMassKg, 30, 250);
  requireRange('dragAreaM2', rider.dragAreaM2, 0.1, 1.5);
  requireRange('rollingCoefficient', rider.rollingCoefficient, 0, 0.03);
  requireRange('gradient', road.gradient, -0.25, 0.25);
  requireRange('airDensityKgPerM3', road.airDensityKgPerM3, 0.3, 1.6);
  requireRange('wind.headwindMps', road.wind.headwindMps, -40, 40);
  requireRange('wind.crosswindMps', road.wind.crosswindMps, -40, 40);
}

function forcesAt(rider: RiderOnRoad, road: Road, speedMps: number) {
  const slope = Math.atan(road.gradient);
  const weightN = rider.totalMassKg * gravityMps2;
  const airSpeed = speedMps + road.wind.headwindMps;
  return {
    airN: 0.5 * road.airDensityKgPerM3 * (rider.dragAreaM2 + wheelDragAreaM2) * airSpeed * Math.abs(airSpeed),
    rollingN: Math.cos(slope) * rider.rollingCoefficient * weightN,
    bearingsN: (91 + 8.7 * speedMps) / 1000,
    climbingN: Math.sin(slope) * weightN,
  };
}

function kineticW(
  totalMassKg: number,
  { fromMps, toMps, durationS }: { fromMps: number; toMps: number; durationS: number },
): number {
  requireRange('acceleration.fromMps', fromMps, 0, 60);
  requireRange('acceleration.toMps', toMps, 0, 60);
  requireRange('acceleration.durationS', durationS, 0.1, 86400);
  return (0.5 * (totalMassKg + wheelInertiaKg) * (toMps ** 2 - fromMps ** 2)) / durationS;
}
