import { radiansOf } from '../angles.js';
import type { Point } from '../leg-chain/ankle-position.js';
import { requireRange } from '../require-range.js';
import {
  requireBar,
  requireFrame,
  requireSaddle,
  requireSeatpost,
  requireStem,
  type Bar,
  type Build,
  type FrameGeometry,
  type RailedSaddle,
  type Seatpost,
} from './bike-parts.js';

/** Where the rider meets the bike, from the bottom bracket: `x` forward, `y` up. */
export interface ContactPoints {
  /** Top of the saddle where it is 80 mm wide. */
  readonly saddle: Point;
  /** Hoods of a drop bar, grips of a flat one. */
  readonly upperGrip: Point;
  /** Height of the drops; null when the bar has none or they are not wanted. */
  readonly lowerGripYMm: number | null;
}

/**
 * Centre of the bar's clamp, from stack and reach up the steerer and along the stem.
 *
 * @param alongSteererMm top of the head tube to the stem's centre line: cap, spacers and half the stem's clamp. 0–250
 * @throws FitMathError naming the input outside its range
 * @source trigonometry
 * @check outside/frames: four points worked apart; outside/geometry-package: vectors turned
 * @tolerance 0.05 mm; 1e-9 mm
 * @example barClampCentre({ stackMm: 560, reachMm: 385, headTubeAngleDeg: 73 }, 20, { lengthMm: 100, angleDeg: -6 }).yMm;
 *   // 598.2…
 */
export function barClampCentre(
  frame: Pick<FrameGeometry, 'stackMm' | 'reachMm' | 'headTubeAngleDeg'>,
  alongSteererMm: number,
  stem: { readonly lengthMm: number; readonly angleDeg: number },
): Point {
  requireRange('frame.stackMm', frame.stackMm, 300, 800);
  requireRange('frame.reachMm', frame.reachMm, 200, 650);
  requireRange('frame.headTubeAngleDeg', frame.headTubeAngleDeg, 55, 85);
  requireRange('alongSteererMm', alongSteererMm, 0, 250);
  requireStem('stem', { id: '', clampHeightMm: 0, ...stem });
  return placeBarClamp(frame, alongSteererMm, stem);
}

/** The same from inputs already checked; for the search. */
export function placeBarClamp(
  frame: Pick<FrameGeometry, 'stackMm' | 'reachMm' | 'headTubeAngleDeg'>,
  alongSteererMm: number,
  stem: { readonly lengthMm: number; readonly angleDeg: number },
): Point {
  const steerer = radiansOf(frame.headTubeAngleDeg);
  const stemRise = Math.PI / 2 - steerer + radiansOf(stem.angleDeg);
  return {
    xMm: frame.reachMm - alongSteererMm * Math.cos(steerer) + stem.lengthMm * Math.cos(stemRise),
    yMm: frame.stackMm + alongSteererMm * Math.sin(steerer) + stem.lengthMm * Math.sin(stemRise),
  };
}

/** Where a bar on that clamp is gripped; inputs already checked. */
export function placeGrips(clamp: Point, bar: Bar): Pick<ContactPoints, 'upperGrip' | 'lowerGripYMm'> {
  return {
    upperGrip: { xMm: clamp.xMm + bar.reachMm, yMm: clamp.yMm + bar.riseMm },
    lowerGripYMm: bar.dropMm === null ? null : clamp.yMm - bar.dropMm,
  };
}

/** The saddle's reference point with its clamp at a place on the seat tube's axis; inputs already checked. */
export function placeSaddle(
  frame: FrameGeometry,
  seatpost: Seatpost,
  saddle: RailedSaddle,
  clampAlongTubeMm: number,
  saddleForwardMm: number,
): Point {
  const tube = radiansOf(frame.seatTubeAngleDeg);
  const cosine = Math.cos(tube);
  const sine = Math.sin(tube);
  return {
    xMm:
      frame.seatTubeAxisAheadMm -
      clampAlongTubeMm * cosine -
      seatpost.setbackMm * sine -
      saddle.widthPointBehindRailMiddleMm +
      saddleForwardMm,
    yMm: clampAlongTubeMm * sine - seatpost.setbackMm * cosine + saddle.railToTopMm,
  };
}

/**
 * Where a built bike puts its rider; saddle and bar level.
 *
 * @throws FitMathError naming the measure outside its range, a clamp beyond the post's range or a saddle beyond its rails
 * @source trigonometry
 * @check outside/frames: a 7-24-25 triangle; outside/geometry-package: vectors turned
 * @tolerance 1e-9 mm
 * @example contactPoints({ stackMm: 560, reachMm: 385, headTubeAngleDeg: 73, seatTubeAngleDeg: 73, seatTubeAxisAheadMm: 0,
 *   clampAlongTubeMm: { least: 600, greatest: 760 }, topCapMm: 5 }, { stem: { id: 's', lengthMm: 100, angleDeg: -6,
 *   clampHeightMm: 40 }, spacersMm: 10, bar: { id: 'b', reachMm: 80, riseMm: 0, dropMm: 125 }, seatpost: { id: 'p',
 *   setbackMm: 20 }, saddle: { lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45, widthPointBehindRailMiddleMm: 20,
 *   railTravelMm: 20 }, clampAlongTubeMm: 700, saddleForwardMm: 5 }).lowerGripYMm; // 487.5…
 */
export function contactPoints(frame: FrameGeometry, build: Build): ContactPoints {
  requireFrame(frame);
  const { stem, bar, seatpost, saddle, spacersMm } = build;
  requireStem('stem', stem);
  requireBar('bar', bar);
  requireSeatpost('seatpost', seatpost);
  requireSaddle('saddle', saddle);
  requireRange('spacersMm', spacersMm, 0, 100);
  const { least, greatest } = frame.clampAlongTubeMm;
  requireRange('clampAlongTubeMm', build.clampAlongTubeMm, least, greatest);
  requireRange('saddleForwardMm', build.saddleForwardMm, -saddle.railTravelMm, saddle.railTravelMm);
  const clamp = placeBarClamp(frame, frame.topCapMm + spacersMm + stem.clampHeightMm / 2, stem);
  return {
    saddle: placeSaddle(frame, seatpost, saddle, build.clampAlongTubeMm, build.saddleForwardMm),
    ...placeGrips(clamp, bar),
  };
}

/** @throws FitMathError naming the coordinate outside its range */
export function requireContactPoints(field: string, points: ContactPoints): void {
  requireRange(`${field}.saddle.xMm`, points.saddle.xMm, -500, 200);
  requireRange(`${field}.saddle.yMm`, points.saddle.yMm, 300, 1100);
  requireRange(`${field}.upperGrip.xMm`, points.upperGrip.xMm, 100, 1100);
  requireRange(`${field}.upperGrip.yMm`, points.upperGrip.yMm, 200, 1200);
  if (points.lowerGripYMm !== null) requireRange(`${field}.lowerGripYMm`, points.lowerGripYMm, 100, 1100);
}
