import { requireRange } from '../require-range.js';
import { requireSaddleShape, type SaddleShape } from '../setback/saddle-shape.js';

export interface FrameGeometry {
  /** Vertical, bottom bracket to the top of the head tube on the steerer's axis. 300–800. */
  readonly stackMm: number;
  /** Horizontal, the same two points. 200–650. */
  readonly reachMm: number;
  /** To the horizontal. 55–85. */
  readonly headTubeAngleDeg: number;
  /** Of the seat tube's axis, to the horizontal. 55–90. */
  readonly seatTubeAngleDeg: number;
  /** Where that axis crosses the height of the bottom bracket, in front of it; 0 when it runs through. −150–150. */
  readonly seatTubeAxisAheadMm: number;
  /** Least and greatest distance along the axis from that crossing to the seatpost's clamp. 200–1100. */
  readonly clampAlongTubeMm: { readonly least: number; readonly greatest: number };
  /** Parts that always lie between head tube and spacers: bearing cap. 0–60. */
  readonly topCapMm: number;
}

export interface Stem {
  readonly id: string;
  /** Steerer's axis to the bar's axis. 0–180. */
  readonly lengthMm: number;
  /** To the normal of the steerer, rising positive. −60–60. */
  readonly angleDeg: number;
  /** Along the steerer. 0–80. */
  readonly clampHeightMm: number;
}

export interface Bar {
  readonly id: string;
  /** Clamp's axis forward to the upper grip. −150–450. */
  readonly reachMm: number;
  /** Clamp's axis up to the upper grip. −100–200. */
  readonly riseMm: number;
  /** Clamp's axis down to the lower grip; null when the bar has none. 0–250. */
  readonly dropMm: number | null;
}

export interface Seatpost {
  readonly id: string;
  /** Clamp behind the post's axis, square to it; negative = in front. −80–80. */
  readonly setbackMm: number;
}

/** A saddle with its rails: where it can sit on a clamp. */
export interface RailedSaddle extends SaddleShape {
  /** The 80 mm wide place behind the middle of the clampable rail; negative = in front. −100–150. */
  readonly widthPointBehindRailMiddleMm: number;
  /** How far the clamp may be from the middle of the rail, either way. 0–60. */
  readonly railTravelMm: number;
}

/** One way of building the bike up. */
export interface Build {
  readonly stem: Stem;
  /** Between bearing cap and stem. 0–100. */
  readonly spacersMm: number;
  readonly bar: Bar;
  readonly seatpost: Seatpost;
  readonly saddle: RailedSaddle;
  /** Along the seat tube's axis, from where it crosses the height of the bottom bracket. */
  readonly clampAlongTubeMm: number;
  /** Saddle slid forward from the middle of its rails; negative = back. */
  readonly saddleForwardMm: number;
}

/** @throws FitMathError naming the first measure outside its range */
export function requireFrame(frame: FrameGeometry): void {
  requireRange('frame.stackMm', frame.stackMm, 300, 800);
  requireRange('frame.reachMm', frame.reachMm, 200, 650);
  requireRange('frame.headTubeAngleDeg', frame.headTubeAngleDeg, 55, 85);
  requireRange('frame.seatTubeAngleDeg', frame.seatTubeAngleDeg, 55, 90);
  requireRange('frame.seatTubeAxisAheadMm', frame.seatTubeAxisAheadMm, -150, 150);
  const { least, greatest } = frame.clampAlongTubeMm;
  requireRange('frame.clampAlongTubeMm.least', least, 200, 1100);
  requireRange('frame.clampAlongTubeMm.greatest', greatest, least, 1100);
  requireRange('frame.topCapMm', frame.topCapMm, 0, 60);
}

export function requireStem(field: string, stem: Stem): void {
  requireRange(`${field}.lengthMm`, stem.lengthMm, 0, 180);
  requireRange(`${field}.angleDeg`, stem.angleDeg, -60, 60);
  requireRange(`${field}.clampHeightMm`, stem.clampHeightMm, 0, 80);
}

export function requireBar(field: string, bar: Bar): void {
  requireRange(`${field}.reachMm`, bar.reachMm, -150, 450);
  requireRange(`${field}.riseMm`, bar.riseMm, -100, 200);
  if (bar.dropMm !== null) requireRange(`${field}.dropMm`, bar.dropMm, 0, 250);
}

export function requireSeatpost(field: string, seatpost: Seatpost): void {
  requireRange(`${field}.setbackMm`, seatpost.setbackMm, -80, 80);
}

export function requireSaddle(field: string, saddle: RailedSaddle): void {
  requireSaddleShape(field, saddle);
  requireRange(`${field}.widthPointBehindRailMiddleMm`, saddle.widthPointBehindRailMiddleMm, -100, 150);
  requireRange(`${field}.railTravelMm`, saddle.railTravelMm, 0, 60);
}
