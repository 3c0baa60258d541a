import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { jointAngles, legPoints, type FootPitch, type Leg, type Point } from './index.js';

const leg: Leg = {
  thighMm: 434,
  shankMm: 425,
  footLeverMm: 140,
  ankleAboveSpindleMm: 120,
  crankLengthMm: 172.5,
};
const hip = { xMm: -237.8, yMm: 777.9 };
const apart = (one: Point, other: Point): number => Math.hypot(one.xMm - other.xMm, one.yMm - other.yMm);

const reading = fc.double({ min: 0, max: 25, noNaN: true });
const pitch: fc.Arbitrary<FootPitch> = fc.oneof(
  fc.record({
    kind: fc.constant('constant' as const),
    pitchDeg: fc.double({ min: -10, max: 30, noNaN: true }),
  }),
  fc
    .tuple(reading, reading, reading, reading)
    .map((readingsDeg): FootPitch => ({ kind: 'clock', readingsDeg })),
);

describe('the points of the leg', () => {
  it('are as far apart as the segments are long, the knee in front and bent as the angles say', () => {
    fc.assert(
      fc.property(pitch, fc.double({ min: 0, max: 360, noNaN: true }), (held, crankDeg) => {
        const { knee, ankle, spindle } = legPoints(leg, held, hip, crankDeg);
        expect(apart(hip, knee)).toBeCloseTo(434, 6);
        expect(apart(knee, ankle)).toBeCloseTo(425, 6);
        expect(apart({ xMm: 0, yMm: 0 }, spindle)).toBeCloseTo(172.5, 6);
        expect(apart(ankle, spindle)).toBeCloseTo(Math.hypot(140, 120), 6);
        // Seen along the way from hip to ankle, which leads down, the front is on the left.
        const across =
          (ankle.xMm - hip.xMm) * (knee.yMm - hip.yMm) - (ankle.yMm - hip.yMm) * (knee.xMm - hip.xMm);
        expect(across).toBeGreaterThan(0);
        const thigh = Math.atan2(knee.yMm - hip.yMm, knee.xMm - hip.xMm);
        const shank = Math.atan2(ankle.yMm - knee.yMm, ankle.xMm - knee.xMm);
        const { kneeFlexionDeg } = jointAngles(leg, held, hip, crankDeg);
        expect(((thigh - shank) * 180) / Math.PI).toBeCloseTo(kneeFlexionDeg, 6);
      }),
    );
  });

  it('say how the foot is held there', () => {
    const clock: FootPitch = { kind: 'clock', readingsDeg: [5, 10, 20, 12] };
    expect(legPoints(leg, clock, hip, 180).footPitchDeg).toBeCloseTo(20, 9);
    expect(legPoints(leg, { kind: 'constant', pitchDeg: 0 }, hip, 180).ankle).toEqual({
      xMm: expect.closeTo(-140, 6),
      yMm: expect.closeTo(-52.5, 6),
    });
  });
});
