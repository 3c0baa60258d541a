import { describe, expect, it } from '@jest/globals';
import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import {
  barClampCentre,
  contactPoints,
  hipForKneeFlexion,
  jointAngles,
  type FootPitch,
  type Leg,
  type Point,
  type SaddlePath,
} from '@studio/fit-math';

/**
 * A general geometry package as oracle: it intersects circles and lines and turns vectors, and knows nothing of legs
 * or frames. Everything below is built from points.
 */
const { circle, line, point, vector } = Flatten;
type FlatPoint = InstanceType<typeof Flatten.Point>;
type FlatVector = InstanceType<typeof Flatten.Vector>;
const radians = (deg: number): number => (deg * Math.PI) / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const anyLeg = fc.record({
  thighMm: number(360, 500),
  shankMm: number(360, 500),
  footLeverMm: number(60, 170),
  ankleAboveSpindleMm: number(80, 150),
  crankLengthMm: number(140, 190),
});

/** Spindle on its circle, then the foot laid off along and across a sole turned by its pitch. */
function ankleOf(leg: Leg, pitchDeg: number, crankDeg: number): FlatPoint {
  const spindle = point(0, leg.crankLengthMm).rotate(-radians(crankDeg));
  const foot = vector(-leg.footLeverMm, leg.ankleAboveSpindleMm).rotate(-radians(pitchDeg));
  return spindle.translate(foot);
}

const reachOf = ({ thighMm, shankMm }: Leg, flexionDeg: number): number =>
  // Shank turned back from the thigh by the flexion, end to end.
  vector(thighMm, 0).add(vector(shankMm, 0).rotate(radians(flexionDeg))).length;

/** Degrees; by sine and cosine, since a cosine alone tells little of an angle near 0. */
const between = (one: FlatVector, other: FlatVector): number =>
  (Math.atan2(Math.abs(one.cross(other)), one.dot(other)) * 180) / Math.PI;

describe('joint angles against circles intersected by a geometry package', () => {
  it('finds the knee where circles about hip and ankle cross in front, ±1e-6°', () => {
    fc.assert(
      fc.property(
        anyLeg,
        number(-15, 35),
        number(20, 50),
        number(0, 360),
        (leg, pitchDeg, flexion, crankDeg) => {
          const pitch: FootPitch = { kind: 'constant', pitchDeg };
          const { hip } = hipForKneeFlexion(leg, pitch, flexion, {
            kind: 'along-seat-tube',
            seatTubeAngleDeg: 73,
          });
          const hipPoint = point(hip.xMm, hip.yMm);
          const ankle = ankleOf(leg, pitchDeg, crankDeg);
          const crossings = circle(hipPoint, leg.thighMm).intersect(circle(ankle, leg.shankMm));
          const knee = crossings.reduce((front, one) => (one.x > front.x ? one : front));
          const found = jointAngles(leg, pitch, hip, crankDeg);
          const thigh = vector(hipPoint, knee);
          const shank = vector(knee, ankle);
          const sole = vector(1, 0).rotate(-radians(pitchDeg));
          expect(found.kneeFlexionDeg).toBeCloseTo(between(thigh, shank), 6);
          expect(Math.sin(radians(found.thighElevationDeg))).toBeCloseTo(thigh.y / thigh.length, 8);
          expect(found.ankleAngleDeg).toBeCloseTo(between(shank.invert(), sole), 6);
        },
      ),
    );
  });
});

describe('hip places against a geometry package, crank angle by crank angle', () => {
  const steps = Array.from({ length: 360 }, (_, i) => i);
  /** Of each ankle's circle of reach the highest crossing with the path; of these the lowest. */
  const oracle = (
    crossings: (ankle: FlatPoint) => readonly FlatPoint[],
    leg: Leg,
    pitchDeg: number,
  ): FlatPoint =>
    steps
      .flatMap((crankDeg) => {
        const found = crossings(ankleOf(leg, pitchDeg, crankDeg));
        return found.length === 0 ? [] : [found.reduce((high, one) => (one.y > high.y ? one : high))];
      })
      .reduce((low, one) => (one.y < low.y ? one : low));

  const near = (hip: Point, wanted: FlatPoint): void => {
    // Read every degree and not refined, the oracle lies up to 0.03 mm above the least.
    expect(Math.abs(hip.xMm - wanted.x)).toBeLessThan(0.05);
    expect(Math.abs(hip.yMm - wanted.y)).toBeLessThan(0.05);
  };

  it.each([
    ['along the seat tube', { kind: 'along-seat-tube', seatTubeAngleDeg: 74 }],
    ['at constant setback', { kind: 'constant-setback', hipSetbackMm: 220 }],
  ] as const)('%s', (_, path: SaddlePath) => {
    const direction =
      path.kind === 'along-seat-tube' ? vector(-Math.cos(radians(74)), Math.sin(radians(74))) : vector(0, 1);
    const origin = path.kind === 'constant-setback' ? point(-220, 0) : point(0, 0);
    const track = line(origin, direction.rotate90CCW());
    fc.assert(
      fc.property(anyLeg, number(-10, 30), number(20, 50), (leg, pitchDeg, flexion) => {
        const reach = reachOf(leg, flexion);
        const { hip } = hipForKneeFlexion(leg, { kind: 'constant', pitchDeg }, flexion, path);
        near(
          hip,
          oracle((ankle) => circle(ankle, reach).intersect(track), leg, pitchDeg),
        );
      }),
      { numRuns: 15 },
    );
  });

  it('at constant knee over the spindle', () => {
    fc.assert(
      fc.property(
        anyLeg,
        number(-10, 30),
        number(20, 50),
        number(-50, 30),
        (leg, pitchDeg, flexion, kneeAheadOfSpindleMm) => {
          const level = ankleOf(leg, pitchDeg, 90);
          const upright = line(point(leg.crankLengthMm + kneeAheadOfSpindleMm, 0), vector(1, 0));
          const knee = circle(level, leg.shankMm)
            .intersect(upright)
            .reduce((high, one) => (one.y > high.y ? one : high));
          const reach = reachOf(leg, flexion);
          const { hip } = hipForKneeFlexion(leg, { kind: 'constant', pitchDeg }, flexion, {
            kind: 'constant-knee-over-spindle',
            kneeAheadOfSpindleMm,
          });
          const behind = (ankle: FlatPoint): FlatPoint[] =>
            circle(knee, leg.thighMm)
              .intersect(circle(ankle, reach))
              .filter(({ x }) => x < knee.x);
          near(hip, oracle(behind, leg, pitchDeg));
        },
      ),
      { numRuns: 15 },
    );
  });
});

describe('frames against vectors turned by a geometry package, ±1e-9 mm', () => {
  const frame = {
    stackMm: 560,
    reachMm: 385,
    headTubeAngleDeg: 73,
    seatTubeAngleDeg: 74,
    seatTubeAxisAheadMm: -12,
    clampAlongTubeMm: { least: 500, greatest: 800 },
    topCapMm: 6,
  };

  it('bar clamp: up the steerer, then along the stem', () => {
    fc.assert(
      fc.property(
        number(60, 80),
        number(0, 80),
        number(40, 140),
        number(-25, 40),
        (head, up, length, angle) => {
          const steerer = vector(-1, 0).rotate(-radians(head));
          const stem = steerer.rotate90CW().rotate(radians(angle));
          const wanted = point(385, 560).translate(steerer.multiply(up)).translate(stem.multiply(length));
          const found = barClampCentre({ ...frame, headTubeAngleDeg: head }, up, {
            lengthMm: length,
            angleDeg: angle,
          });
          expect(found.xMm).toBeCloseTo(wanted.x, 9);
          expect(found.yMm).toBeCloseTo(wanted.y, 9);
        },
      ),
    );
  });

  it('saddle: up the seat tube, back square to it, then level', () => {
    fc.assert(
      fc.property(
        number(60, 85),
        number(500, 800),
        number(-30, 40),
        number(-15, 15),
        (tube, up, back, slid) => {
          const axis = vector(-1, 0).rotate(-radians(tube));
          const wanted = point(-12, 0)
            .translate(axis.multiply(up))
            .translate(axis.rotate90CCW().multiply(back))
            .translate(vector(slid - 20, 45));
          const { saddle } = contactPoints(
            { ...frame, seatTubeAngleDeg: tube },
            {
              stem: { id: 's', lengthMm: 100, angleDeg: -6, clampHeightMm: 40 },
              spacersMm: 10,
              bar: { id: 'b', reachMm: 80, riseMm: 0, dropMm: 125 },
              seatpost: { id: 'p', setbackMm: back },
              saddle: {
                lengthMm: 270,
                tipTo80MmWidthMm: 140,
                railToTopMm: 45,
                widthPointBehindRailMiddleMm: 20,
                railTravelMm: 20,
              },
              clampAlongTubeMm: up,
              saddleForwardMm: slid,
            },
          );
          expect(saddle.xMm).toBeCloseTo(wanted.x, 9);
          expect(saddle.yMm).toBeCloseTo(wanted.y, 9);
        },
      ),
    );
  });
});
