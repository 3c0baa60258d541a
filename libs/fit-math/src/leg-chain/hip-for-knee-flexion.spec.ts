import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  FitMathError,
  hipForKneeFlexion,
  kneeOverSpindle,
  straightest,
  type FootPitch,
  type Leg,
  type SaddlePath,
} from '../index.js';

const leg: Leg = {
  thighMm: 434,
  shankMm: 425,
  footLeverMm: 140,
  ankleAboveSpindleMm: 120,
  crankLengthMm: 172.5,
};
const alongTube: SaddlePath = { kind: 'along-seat-tube', seatTubeAngleDeg: 73 };

/** Computed apart from this library, by bisection over 720 crank steps; rounded to 0.1 mm. */
const table: readonly [pitchDeg: number, hipMm: number, atDeg: number, lowering: readonly number[]][] = [
  [-8, 776.0, 173.5, [-0.2, -0.3, -0.0, 0.5]],
  [0, 794.9, 172.0, [1.8, 3.9, 6.2, 9.0]],
  [10, 813.4, 169.0, [4.4, 8.9, 13.6, 19.4]],
  [20, 825.6, 166.5, [6.7, 13.6, 20.5, 28.9]],
  [30, 830.9, 163.5, [8.7, 17.6, 26.5, 37.1]],
];

const anyLeg = fc.record({
  thighMm: fc.double({ min: 340, max: 520, noNaN: true }),
  shankMm: fc.double({ min: 340, max: 520, noNaN: true }),
  footLeverMm: fc.double({ min: 40, max: 180, noNaN: true }),
  ankleAboveSpindleMm: fc.double({ min: 80, max: 160, noNaN: true }),
  crankLengthMm: fc.double({ min: 140, max: 190, noNaN: true }),
});
const anyPitch = fc.oneof(
  fc
    .double({ min: -20, max: 40, noNaN: true })
    .map((pitchDeg): FootPitch => ({ kind: 'constant', pitchDeg })),
  fc
    .tuple(...Array.from({ length: 4 }, () => fc.double({ min: -10, max: 35, noNaN: true })))
    .map((readings): FootPitch => ({
      kind: 'clock',
      readingsDeg: readings as [number, number, number, number],
    })),
);
const anyTarget = fc.double({ min: 20, max: 55, noNaN: true });

describe('hipForKneeFlexion', () => {
  it.each(table)(
    'agrees with an independent bisection at %d° foot pitch',
    (pitchDeg, hipMm, atDeg, lowering) => {
      const height = (backMm: number) =>
        hipForKneeFlexion(
          { ...leg, footLeverMm: 140 - backMm },
          { kind: 'constant', pitchDeg },
          35,
          alongTube,
        );
      const now = height(0);
      expect(Math.abs(now.hipDistanceMm - hipMm)).toBeLessThanOrEqual(0.2);
      expect(Math.abs(now.straightestAtCrankDeg - atDeg)).toBeLessThanOrEqual(0.5);
      [12, 24, 36, 50].forEach((backMm, i) => {
        const lowered = now.hipDistanceMm - height(backMm).hipDistanceMm;
        expect(Math.abs(lowered - (lowering[i] ?? Number.NaN))).toBeLessThanOrEqual(0.2);
      });
    },
  );

  it('is undone by reading the straightest knee at the hip it found', () => {
    fc.assert(
      fc.property(anyLeg, anyPitch, anyTarget, (someLeg, pitch, target) => {
        const { hip } = hipForKneeFlexion(someLeg, pitch, target, alongTube);
        expect(straightest(someLeg, pitch, hip).kneeFlexionDeg).toBeCloseTo(target, 3);
      }),
    );
  });

  it('puts the hip higher for a straighter knee', () => {
    fc.assert(
      fc.property(
        anyLeg,
        anyPitch,
        fc.double({ min: 20, max: 50, noNaN: true }),
        (someLeg, pitch, target) => {
          const straighter = hipForKneeFlexion(someLeg, pitch, target, alongTube).hipDistanceMm;
          const moreBent = hipForKneeFlexion(someLeg, pitch, target + 5, alongTube).hipDistanceMm;
          expect(straighter).toBeGreaterThan(moreBent);
        },
      ),
    );
  });

  it('is not monotone in the cleat: a dropped heel first wants the saddle up, then down', () => {
    const height = (backMm: number) =>
      hipForKneeFlexion(
        { ...leg, footLeverMm: 140 - backMm },
        { kind: 'constant', pitchDeg: -8 },
        35,
        alongTube,
      ).hipDistanceMm;
    expect(height(20)).toBeGreaterThan(height(0));
    expect(height(50)).toBeLessThan(height(0));
  });

  it('keeps the setback it was told to keep', () => {
    const path: SaddlePath = { kind: 'constant-setback', hipSetbackMm: 230 };
    const { hip } = hipForKneeFlexion(leg, { kind: 'constant', pitchDeg: 10 }, 35, path);
    expect(hip.xMm).toBe(-230);
    expect(straightest(leg, { kind: 'constant', pitchDeg: 10 }, hip).kneeFlexionDeg).toBeCloseTo(35, 4);
  });

  it('keeps the knee where it was told to keep it over the spindle, and the flexion asked for', () => {
    const anyOffset = fc.double({ min: -60, max: 40, noNaN: true });
    fc.assert(
      fc.property(anyLeg, anyPitch, anyTarget, anyOffset, (someLeg, pitch, target, kneeAheadOfSpindleMm) => {
        const path: SaddlePath = { kind: 'constant-knee-over-spindle', kneeAheadOfSpindleMm };
        const { hip, straightestAtCrankDeg } = hipForKneeFlexion(someLeg, pitch, target, path);
        const { aheadOfSpindleMm } = kneeOverSpindle({
          leg: someLeg,
          footPitch: pitch,
          hip,
          landmark: 'patella_lower_pole',
          landmarkAheadOfKneeJointMm: 0,
        });
        expect(aheadOfSpindleMm.value).toBeCloseTo(kneeAheadOfSpindleMm, 6);
        const found = straightest(someLeg, pitch, hip);
        expect(found.kneeFlexionDeg).toBeCloseTo(target, 3);
        // The two curves share their extreme, each found by its own parabola.
        expect(Math.abs(found.crankDeg - straightestAtCrankDeg)).toBeLessThan(0.1);
      }),
    );
  });

  it('comes to one place by all three ways of moving, from the place itself', () => {
    const pitch: FootPitch = { kind: 'constant', pitchDeg: 10 };
    const { hip } = hipForKneeFlexion(leg, pitch, 35, alongTube);
    const { aheadOfSpindleMm } = kneeOverSpindle({
      leg,
      footPitch: pitch,
      hip,
      landmark: 'patella_lower_pole',
      landmarkAheadOfKneeJointMm: 0,
    });
    const ways: SaddlePath[] = [
      { ...alongTube, through: hip },
      { kind: 'constant-setback', hipSetbackMm: -hip.xMm },
      { kind: 'constant-knee-over-spindle', kneeAheadOfSpindleMm: aheadOfSpindleMm.value },
    ];
    const lower = ways.map((path) => {
      const back = hipForKneeFlexion(leg, pitch, 35, path).hip;
      expect(back.xMm).toBeCloseTo(hip.xMm, 4);
      expect(back.yMm).toBeCloseTo(hip.yMm, 4);
      return hipForKneeFlexion(leg, pitch, 40, path).hip;
    });
    // For a more bent knee each way goes down, and they part in how far back it ends.
    for (const place of lower) expect(place.yMm).toBeLessThan(hip.yMm);
    expect(new Set(lower.map(({ xMm }) => xMm.toFixed(1))).size).toBe(3);
  });

  it('says when the shank does not reach the place the knee is to have', () => {
    const short = { ...leg, shankMm: 200, thighMm: 380 };
    const path: SaddlePath = { kind: 'constant-knee-over-spindle', kneeAheadOfSpindleMm: 150 };
    expect(() => hipForKneeFlexion(short, { kind: 'constant', pitchDeg: 0 }, 35, path)).toThrow(
      expect.objectContaining({ code: 'target.not-reachable', field: 'kneeAheadOfSpindleMm' }),
    );
  });

  it.each([
    ['seatTubeAngleDeg', { kind: 'along-seat-tube', seatTubeAngleDeg: 20 }],
    ['through.xMm', { kind: 'along-seat-tube', seatTubeAngleDeg: 73, through: { xMm: Number.NaN, yMm: 0 } }],
    ['hipSetbackMm', { kind: 'constant-setback', hipSetbackMm: 900 }],
    ['kneeAheadOfSpindleMm', { kind: 'constant-knee-over-spindle', kneeAheadOfSpindleMm: Number.NaN }],
  ] as const)('refuses a path with an impossible %s', (field, path) => {
    expect(() => hipForKneeFlexion(leg, { kind: 'constant', pitchDeg: 0 }, 35, path)).toThrow(
      expect.objectContaining({ field }),
    );
  });

  it.each([
    ['thighMm', { ...leg, thighMm: Number.NaN }, 35],
    ['crankLengthMm', { ...leg, crankLengthMm: 20 }, 35],
    ['minimumKneeFlexionDeg', leg, Number.POSITIVE_INFINITY],
  ])('refuses an impossible %s by name', (field, someLeg, target) => {
    const call = () => hipForKneeFlexion(someLeg, { kind: 'constant', pitchDeg: 0 }, target, alongTube);
    expect(call).toThrow(FitMathError);
    expect(call).toThrow(new RegExp(`^${field}: `));
  });
});
