import { radiansOf } from '../angles.js';
import type { PositionFigures } from '../positions/compare-positions.js';
import { positionFields, type PositionFieldId } from '../positions/position-fields.js';
import { requireRange } from '../require-range.js';

type Figures = PositionFigures['values'];

export interface SecondPositionInput {
  /** The position on the first bike, or in the first pair of shoes; a figure that was not measured is not answered. */
  readonly first: Figures;
  /** To the horizontal. 50–90. */
  readonly firstSeatTubeAngleDeg: number;
  /** The same angle for one bike and two pairs of shoes. 50–90. */
  readonly secondSeatTubeAngleDeg: number;
  /** What cleat, crank and sole ask of the saddle along the first seat tube, negative = lower: `saddleChange`. −200–200. */
  readonly saddleChangeMm: number;
  /** Cleat farther back on the second, negative = forward. −100–150. */
  readonly cleatBackMm: number;
  /** On the second. 80–250. */
  readonly crankLengthMm: number;
  /** What the other use wants otherwise, horizontally and vertically; positive = forward, up. Each −200–200. */
  readonly otherwise: {
    readonly saddleForwardMm: number;
    readonly saddleUpMm: number;
    readonly gripsForwardMm: number;
    readonly gripsUpMm: number;
  };
  /** The second saddle's length from tip to where it is 80 mm wide, less the first's; 0 for one saddle. −150–150. */
  readonly saddleTipTo80MmLongerMm: number;
  /** Of other bars the grips stand where they are wanted, but not their centre. */
  readonly sameBars: boolean;
  /** In other shoes the cleat stands where it is wanted under the foot, but not from the nose of the shoe. */
  readonly sameShoes: boolean;
}

/**
 * A rider's position on a second bike, or in a second pair of shoes, for another use: that of the first, carried over.
 *
 * Saddle and grips move together along the first seat tube by what cleat, crank and sole ask, so that the torso keeps
 * its angle and reach, and then by what the other use wants. The height is told along the second bike's own seat tube.
 *
 * @returns mm and degrees, as `positionFields`
 * @throws FitMathError naming the input outside its range
 * @source trigonometry; that torso and grips are carried over unchanged: common practice, no source
 * @check src/frames/second-position: against `secondBike` by another way; there and back
 * @tolerance 1e-9 mm
 * @example
 * secondPosition({
 *   first: { saddleHeightMm: 740, saddleSetbackMm: 60, hoodReachMm: 690, hoodDropMm: 55, cleatBehindMth1LeftMm: 5 },
 *   firstSeatTubeAngleDeg: 73,
 *   secondSeatTubeAngleDeg: 74,
 *   saddleChangeMm: -14,
 *   cleatBackMm: 24,
 *   crankLengthMm: 170,
 *   otherwise: { saddleForwardMm: 0, saddleUpMm: 0, gripsForwardMm: 0, gripsUpMm: 10 },
 *   saddleTipTo80MmLongerMm: 0,
 *   sameBars: true,
 *   sameShoes: true,
 * });
 * // { saddleHeightMm: 722.2…, saddleSetbackMm: 55.9…, hoodReachMm: 690, hoodDropMm: 45, crankLengthMm: 170, cleatBehindMth1LeftMm: 29 }
 */
export function secondPosition(input: SecondPositionInput): Figures {
  const { first, cleatBackMm, crankLengthMm, otherwise, saddleTipTo80MmLongerMm: longer } = input;
  requireInput(input);
  const tube = radiansOf(input.firstSeatTubeAngleDeg);
  const secondTube = radiansOf(input.secondSeatTubeAngleDeg);
  const forwardMm = -input.saddleChangeMm * Math.cos(tube) + otherwise.saddleForwardMm;
  const gripsForwardMm = -input.saddleChangeMm * Math.cos(tube) + otherwise.gripsForwardMm;
  const upMm = input.saddleChangeMm * Math.sin(tube) + otherwise.saddleUpMm;
  const heightMm = (mm: number): number => (mm * Math.sin(tube) + upMm) / Math.sin(secondTube);
  const reachMm = (mm: number): number => mm + gripsForwardMm - forwardMm - longer;
  const dropMm = (mm: number): number => mm + otherwise.saddleUpMm - otherwise.gripsUpMm;

  const carried: Readonly<Partial<Record<PositionFieldId, (value: number) => number | null>>> = {
    saddleHeightMm: heightMm,
    saddleSetbackMm: (mm) => mm - forwardMm - longer,
    saddleSetbackAt80Mm: (mm) => mm - forwardMm,
    barReachMm: (mm) => (input.sameBars ? reachMm(mm) : null),
    barDropMm: (mm) => (input.sameBars ? dropMm(mm) : null),
    hoodReachMm: reachMm,
    hoodDropMm: dropMm,
    barTiltDeg: (deg) => (input.sameBars ? deg : null),
    cleatBehindMth1LeftMm: (mm) => mm + cleatBackMm,
    cleatBehindMth1RightMm: (mm) => mm + cleatBackMm,
    cleatFromNoseLeftMm: (mm) => (input.sameShoes ? mm + cleatBackMm : null),
    cleatFromNoseRightMm: (mm) => (input.sameShoes ? mm + cleatBackMm : null),
  };
  const entries = positionFields.flatMap(({ id }): [PositionFieldId, number][] => {
    if (id === 'crankLengthMm') return [[id, crankLengthMm]];
    const value = first[id] ?? null;
    const there = value === null ? null : (carried[id] ?? ((same: number) => same))(value);
    return there === null ? [] : [[id, there]];
  });
  return Object.fromEntries(entries);
}

function requireInput(input: SecondPositionInput): void {
  for (const {
    id,
    possible: [least, greatest],
  } of positionFields) {
    const value = input.first[id] ?? null;
    if (value !== null) requireRange(`first.${id}`, value, least, greatest);
  }
  requireRange('firstSeatTubeAngleDeg', input.firstSeatTubeAngleDeg, 50, 90);
  requireRange('secondSeatTubeAngleDeg', input.secondSeatTubeAngleDeg, 50, 90);
  requireRange('saddleChangeMm', input.saddleChangeMm, -200, 200);
  requireRange('cleatBackMm', input.cleatBackMm, -100, 150);
  requireRange('crankLengthMm', input.crankLengthMm, 80, 250);
  requireRange('saddleTipTo80MmLongerMm', input.saddleTipTo80MmLongerMm, -150, 150);
  for (const [name, value] of Object.entries(input.otherwise)) {
    requireRange(`otherwise.${name}`, value, -200, 200);
  }
}
