import { describe, expect, it } from '@jest/globals';
import { barClampCentre, contactPoints } from '@studio/fit-math';

const frame = { stackMm: 560, reachMm: 385, headTubeAngleDeg: 73 };

describe('centre of the bar clamp: trigonometry worked apart from this library', () => {
  it.each([
    [0, -17, 485.0, 560.0],
    [0, -6, 483.2, 579.1],
    [20, -6, 477.3, 598.2],
    [20, 6, 471.2, 618.2],
  ])('%d mm up a 73° steerer, 100 mm stem at %d°: (%d, %d)', (alongSteererMm, angleDeg, xMm, yMm) => {
    const clamp = barClampCentre(frame, alongSteererMm, { lengthMm: 100, angleDeg });
    expect(Math.abs(clamp.xMm - xMm)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(clamp.yMm - yMm)).toBeLessThanOrEqual(0.05);
  });

  it('10 mm of spacers at 73° give 9.56 mm of height for 2.92 mm of reach', () => {
    const stem = { lengthMm: 100, angleDeg: -6 };
    const low = barClampCentre(frame, 10, stem);
    const high = barClampCentre(frame, 20, stem);
    expect(high.yMm - low.yMm).toBeCloseTo(9.56, 2);
    expect(low.xMm - high.xMm).toBeCloseTo(2.92, 2);
  });

  it.each([
    [73, 3.06],
    [66, 4.45],
  ])('10 mm of rise cost reach by the head angle: %d°, %d mm', (headTubeAngleDeg, costMm) => {
    const stem = { lengthMm: 100, angleDeg: 0 };
    const low = barClampCentre({ ...frame, headTubeAngleDeg }, 0, stem);
    const high = barClampCentre({ ...frame, headTubeAngleDeg }, 100, stem);
    expect(((low.xMm - high.xMm) / (high.yMm - low.yMm)) * 10).toBeCloseTo(costMm, 2);
  });
});

describe('saddle on a 7-24-25 seat tube', () => {
  it('stands where the triangle says', () => {
    const points = contactPoints(
      {
        ...frame,
        seatTubeAngleDeg: (Math.atan2(24, 7) * 180) / Math.PI,
        seatTubeAxisAheadMm: 0,
        clampAlongTubeMm: { least: 500, greatest: 800 },
        topCapMm: 0,
      },
      {
        stem: { id: 'level', lengthMm: 100, angleDeg: -17, clampHeightMm: 0 },
        spacersMm: 0,
        bar: { id: 'drop', reachMm: 75, riseMm: 0, dropMm: 125 },
        seatpost: { id: 'set back', setbackMm: 25 },
        saddle: {
          lengthMm: 270,
          tipTo80MmWidthMm: 140,
          railToTopMm: 45,
          widthPointBehindRailMiddleMm: 10,
          railTravelMm: 20,
        },
        clampAlongTubeMm: 700,
        saddleForwardMm: 4,
      },
    );
    // 700 along 7-24-25 is (196, 672); 25 square to it is (24, 7) back and down.
    expect(points.saddle.xMm).toBeCloseTo(-196 - 24 - 10 + 4, 9);
    expect(points.saddle.yMm).toBeCloseTo(672 - 7 + 45, 9);
    expect(points.upperGrip.xMm).toBeCloseTo(560, 9);
    expect(points.lowerGripYMm).toBeCloseTo(435, 9);
  });
});
