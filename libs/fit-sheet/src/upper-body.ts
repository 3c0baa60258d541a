import type { SidePosture } from '@studio/drawings';
import type { Point } from '@studio/fit-math';

/**
 * Shares of stature: shoulder 0.818 less hip 0.530, upper arm, forearm to the wrist. Drillis & Contini 1966 (NYU TR
 * 1166.03), via Winter 2009, figure 4.1; the hip as in the project's own checks, the others from memory.
 */
const shares = { trunk: 0.818 - 0.53, upperArm: 0.186, forearm: 0.146 };
/** Freely chosen elbow, 19 ± 8°: Holliday & Swart 2021, Sports Med Health Sci 3(2):93–100. */
const elbowBentDeg = 19;

/**
 * Trunk and arms between a hip and the hands: shape only, since nothing but the stature was measured of them. Null when
 * such a trunk and such arms do not reach.
 */
export function upperBody(hip: Point, hand: Point, statureMm: number): SidePosture['upperBody'] {
  const [trunk, upperArm, forearm] = [shares.trunk, shares.upperArm, shares.forearm].map(
    (share) => share * statureMm,
  ) as [number, number, number];
  const bent = (elbowBentDeg * Math.PI) / 180;
  const arm = Math.sqrt(upperArm ** 2 + forearm ** 2 + 2 * upperArm * forearm * Math.cos(bent));
  const shoulder = corner(hip, hand, trunk, arm, 1);
  const elbow = shoulder && corner(shoulder, hand, upperArm, forearm, -1);
  return shoulder && elbow && { shoulder, elbow, hand };
}

/** The point so far from each of two others, to the left of the way between them (1) or to the right (−1). */
function corner(from: Point, to: Point, fromMm: number, toMm: number, side: 1 | -1): Point | null {
  const [dx, dy] = [to.xMm - from.xMm, to.yMm - from.yMm];
  const apart = Math.hypot(dx, dy);
  const along = (fromMm ** 2 - toMm ** 2 + apart ** 2) / (2 * apart);
  const squared = fromMm ** 2 - along ** 2;
  if (!(squared >= 0)) return null;
  const across = side * Math.sqrt(squared);
  return {
    xMm: from.xMm + (along * dx - across * dy) / apart,
    yMm: from.yMm + (along * dy + across * dx) / apart,
  };
}
