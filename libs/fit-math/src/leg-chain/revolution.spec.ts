import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { FitMathError, jointAngles, revolution, straightest, type FootPitch, type Leg } from '../index.js';

const leg: Leg = {
  thighMm: 434,
  shankMm: 425,
  footLeverMm: 140,
  ankleAboveSpindleMm: 120,
  crankLengthMm: 172.5,
};
const hip = { xMm: -237.8, yMm: 777.9 };
const clock: FootPitch = { kind: 'clock', readingsDeg: [5, 12, 22, 30] };

describe('a revolution of the leg', () => {
  it('comes round without a jump', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 360, noNaN: true }), (crankDeg) => {
        const here = jointAngles(leg, clock, hip, crankDeg);
        const aTurnLater = jointAngles(leg, clock, hip, crankDeg + 360);
        const aLittleLater = jointAngles(leg, clock, hip, crankDeg + 0.1);
        for (const joint of ['kneeFlexionDeg', 'thighElevationDeg', 'ankleAngleDeg'] as const) {
          expect(aTurnLater[joint]).toBeCloseTo(here[joint], 6);
          expect(Math.abs(aLittleLater[joint] - here[joint])).toBeLessThan(0.3);
        }
      }),
    );
  });

  it('passes through the four clock readings', () => {
    // With the foot flat the ankle angle is the shank's; each reading adds itself.
    const at = (pitch: FootPitch, crankDeg: number) => jointAngles(leg, pitch, hip, crankDeg);
    [5, 12, 22, 30].forEach((pitchDeg, quarter) => {
      const read = at(clock, 90 * quarter);
      const constant = at({ kind: 'constant', pitchDeg }, 90 * quarter);
      expect(read.kneeFlexionDeg).toBeCloseTo(constant.kneeFlexionDeg, 9);
      expect(read.ankleAngleDeg).toBeCloseTo(constant.ankleAngleDeg, 9);
    });
  });

  it('is straightest before bottom dead centre', () => {
    const { crankDeg, kneeFlexionDeg } = straightest(leg, { kind: 'constant', pitchDeg: 10 }, hip);
    expect(crankDeg).toBeCloseTo(169, 0);
    expect(kneeFlexionDeg).toBeCloseTo(35, 1);
  });

  it('has no angle that is not a number', () => {
    for (const sample of revolution(leg, clock, hip, 90)) {
      for (const value of Object.values(sample)) expect(Number.isFinite(value)).toBe(true);
    }
  });

  it('says at which crank angle the leg cannot reach', () => {
    const tooHigh = { xMm: -260, yMm: 900 };
    expect(() => revolution(leg, clock, tooHigh)).toThrow(FitMathError);
    expect(() => revolution(leg, clock, tooHigh)).toThrow(/at crank \d+°/);
  });
});
