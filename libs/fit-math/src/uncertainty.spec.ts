import { describe, expect, it } from '@jest/globals';
import { propagate, saddleChangeForCleat, usualErrors, type RiderOnBike } from './index.js';

/** Mulberry32: a seeded generator, so that the check is the same every time. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const normal = (uniform: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

describe('propagate', () => {
  it('adds independent errors of a sum by their squares', () => {
    const { value, sd } = propagate({ a: 3, b: 4 }, { a: 0.1, b: 0.2 }, ({ a, b }) => a + b);
    expect(value).toBe(7);
    expect(sd).toBeCloseTo(Math.hypot(0.1, 0.2), 10);
  });

  it('takes an input without an error as exact', () => {
    expect(propagate({ a: 3 }, {}, ({ a }) => a * a).sd).toBe(0);
  });

  it.each([5, 20])('agrees with a seeded Monte Carlo on the saddle change at %d° foot pitch', (pitchDeg) => {
    const rider: RiderOnBike = {
      leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
      footPitch: { kind: 'constant', pitchDeg },
      minimumKneeFlexionDeg: 35,
      seatTubeAngleDeg: 73,
    };
    const predicted = saddleChangeForCleat(rider, 24);
    const uniform = seeded(20260302);
    const none = { ...usualErrors, thighMm: 0, shankMm: 0, footLeverMm: 0, ankleAboveSpindleMm: 0 };
    const exact = { ...none, footPitchDeg: 0, minimumKneeFlexionDeg: 0, seatTubeAngleDeg: 0 };
    const drawn = Array.from({ length: 1500 }, () => {
      const off = (sd: number): number => sd * normal(uniform);
      const { leg } = rider;
      return saddleChangeForCleat(
        {
          leg: {
            ...leg,
            thighMm: leg.thighMm + off(usualErrors.thighMm),
            shankMm: leg.shankMm + off(usualErrors.shankMm),
            footLeverMm: leg.footLeverMm + off(usualErrors.footLeverMm),
            ankleAboveSpindleMm: leg.ankleAboveSpindleMm + off(usualErrors.ankleAboveSpindleMm),
          },
          footPitch: { kind: 'constant', pitchDeg: pitchDeg + off(usualErrors.footPitchDeg) },
          minimumKneeFlexionDeg: 35 + off(usualErrors.minimumKneeFlexionDeg),
          seatTubeAngleDeg: 73 + off(usualErrors.seatTubeAngleDeg),
        },
        24,
        exact,
      ).value;
    });
    const mean = drawn.reduce((sum, value) => sum + value, 0) / drawn.length;
    const sd = Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (drawn.length - 1));
    expect(mean).toBeCloseTo(predicted.value, 0);
    // The spread of 1500 draws is itself known to about 2 %.
    expect(sd / predicted.sd).toBeGreaterThan(0.93);
    expect(sd / predicted.sd).toBeLessThan(1.07);
  });
});
