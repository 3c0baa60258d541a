import { radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import type { Point } from './ankle-position.js';
import { turnSteps, type AnkleTurn } from './ankle-turn.js';
import type { Leg } from './leg.js';

/** How a saddle (and with it the hip) is moved: the line or arc its hip stays on. */
export type SaddlePath =
  /** Up and down the seat tube: the line through `through` at this angle to the horizontal. 50–90. */
  | { readonly kind: 'along-seat-tube'; readonly seatTubeAngleDeg: number; readonly through?: Point }
  /** Straight up and down at this horizontal distance of the hip behind the bottom bracket. −100–500. */
  | { readonly kind: 'constant-setback'; readonly hipSetbackMm: number }
  /**
   * Up and back, or down and forward, so that the knee joint stays this far in front of the spindle with the crank
   * level and forward. −200–200; for a landmark in front of the knee joint its lead is to be taken off.
   */
  | { readonly kind: 'constant-knee-over-spindle'; readonly kneeAheadOfSpindleMm: number };

/** A saddle path as the solver walks it; `along` grows as the hip rises. */
export interface HipTrack {
  /** How far along the hip may be before it is farther than the reach from this ankle; NaN when it always is. */
  readonly limit: (ankleXMm: number, ankleYMm: number, reachSquared: number) => number;
  readonly hipAt: (along: number) => Point;
}

/** @throws FitMathError naming the path's input when it is out of range */
export function requireSaddlePath(path: SaddlePath): void {
  switch (path.kind) {
    case 'along-seat-tube':
      requireRange('seatTubeAngleDeg', path.seatTubeAngleDeg, 50, 90);
      if (path.through) {
        requireRange('through.xMm', path.through.xMm, -800, 400);
        requireRange('through.yMm', path.through.yMm, -1600, 1600);
      }
      break;
    case 'constant-setback':
      requireRange('hipSetbackMm', path.hipSetbackMm, -100, 500);
      break;
    case 'constant-knee-over-spindle':
      requireRange('kneeAheadOfSpindleMm', path.kneeAheadOfSpindleMm, -200, 200);
      break;
  }
}

/** @throws FitMathError `target.not-reachable` when the knee cannot be where the path wants it */
export function hipTrack(path: SaddlePath, leg: Leg, turn: AnkleTurn): HipTrack {
  switch (path.kind) {
    case 'along-seat-tube': {
      const tube = radiansOf(path.seatTubeAngleDeg);
      return line(path.through?.xMm ?? 0, path.through?.yMm ?? 0, -Math.cos(tube), Math.sin(tube));
    }
    case 'constant-setback':
      return line(-path.hipSetbackMm, 0, 0, 1);
    case 'constant-knee-over-spindle':
      return arc(kneeWithCrankLevel(leg, turn, leg.crankLengthMm + path.kneeAheadOfSpindleMm), leg.thighMm);
  }
}

function line(originX: number, originY: number, directionX: number, directionY: number): HipTrack {
  return {
    limit: (ankleXMm, ankleYMm, reachSquared) => {
      const toX = ankleXMm - originX;
      const toY = ankleYMm - originY;
      const across = toX * directionY - toY * directionX;
      return toX * directionX + toY * directionY + Math.sqrt(reachSquared - across * across);
    },
    hipAt: (along) => ({ xMm: originX + along * directionX, yMm: originY + along * directionY }),
  };
}

/** With the crank level the knee stays where it is, so the hip turns about it on the thigh. */
function arc(knee: Point, thighMm: number): HipTrack {
  return {
    limit: (ankleXMm, ankleYMm, reachSquared) => {
      const dx = ankleXMm - knee.xMm;
      const dy = ankleYMm - knee.yMm;
      const squared = dx * dx + dy * dy;
      const cosine = (thighMm * thighMm + squared - reachSquared) / (2 * thighMm * Math.sqrt(squared));
      // Even straight up behind the knee the hip is within reach of this ankle.
      if (cosine < -1) return Number.POSITIVE_INFINITY;
      return thighMm * (Math.acos(cosine) - Math.atan2(dy, dx));
    },
    hipAt: (along) => ({
      xMm: knee.xMm + thighMm * Math.cos(along / thighMm),
      yMm: knee.yMm - thighMm * Math.sin(along / thighMm),
    }),
  };
}

function kneeWithCrankLevel({ shankMm }: Leg, turn: AnkleTurn, kneeXMm: number): Point {
  const ankleXMm = turn.xMm[turnSteps / 4] ?? Number.NaN;
  const ankleYMm = turn.yMm[turnSteps / 4] ?? Number.NaN;
  const rest = shankMm ** 2 - (kneeXMm - ankleXMm) ** 2;
  if (rest < 0) {
    throw new FitMathError(
      'target.not-reachable',
      'kneeAheadOfSpindleMm',
      'a place the shank reaches from the ankle',
    );
  }
  return { xMm: kneeXMm, yMm: ankleYMm + Math.sqrt(rest) };
}
