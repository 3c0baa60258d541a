import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { radiansOf } from '../angles.js';
import { FitMathError, jointAngles, revolution, straightest, type FootPitch, type Leg } from '../index.js';
import { ankleOverTurn } from './ankle-position.js';
import { ankleTurn, turnStepRad, turnSteps } from './ankle-turn.js';
import { footPitchFunction } from './foot-pitch.js';

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

  it('closes: thigh and shank laid end to end reach from the hip to the ankle', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -15, max: 35, noNaN: true }),
        (crankDeg, pitchDeg) => {
          const { kneeFlexionDeg, thighElevationDeg, ankleAngleDeg } = jointAngles(
            leg,
            { kind: 'constant', pitchDeg },
            hip,
            crankDeg,
          );
          const crank = radiansOf(crankDeg);
          const ankleAt = ankleOverTurn(leg, { kind: 'constant', pitchDeg });
          const ankle = ankleAt(Math.cos(crank), Math.sin(crank));
          const thigh = radiansOf(thighElevationDeg);
          const shankUp = radiansOf(ankleAngleDeg - pitchDeg);
          const kneeX = hip.xMm + leg.thighMm * Math.cos(thigh);
          const kneeY = hip.yMm + leg.thighMm * Math.sin(thigh);
          expect(ankle.xMm + leg.shankMm * Math.cos(shankUp)).toBeCloseTo(kneeX, 8);
          expect(ankle.yMm + leg.shankMm * Math.sin(shankUp)).toBeCloseTo(kneeY, 8);
          // Forward branch: the knee turns the leg by its flexion.
          expect(thighElevationDeg - (ankleAngleDeg - pitchDeg - 180)).toBeCloseTo(kneeFlexionDeg, 8);
        },
      ),
    );
  });

  it('places the ankles of a turn where each stands by itself', () => {
    for (const pitch of [clock, { kind: 'constant', pitchDeg: 12 } as const]) {
      const turn = ankleTurn(leg, pitch);
      for (let i = 0; i < turnSteps; i += 45) {
        const crankRad = i * turnStepRad;
        const alone = ankleOverTurn(leg, pitch)(Math.cos(crankRad), Math.sin(crankRad));
        expect(turn.xMm[i]).toBeCloseTo(alone.xMm, 9);
        expect(turn.yMm[i]).toBeCloseTo(alone.yMm, 9);
      }
    }
  });

  it('passes through every reading of a long series', () => {
    const readingsDeg = Array.from({ length: 720 }, (_, i) => 12 + 9 * Math.sin(i / 40) + (i % 7));
    const pitchAt = footPitchFunction({ kind: 'series', readingsDeg });
    readingsDeg.forEach((reading, i) => {
      const crank = (2 * Math.PI * i) / 720;
      expect(pitchAt(Math.cos(crank), Math.sin(crank))).toBeCloseTo(radiansOf(reading), 9);
    });
  });

  it.each([
    ['steps', 2.5, hip],
    ['steps', 3, hip],
    ['steps', Number.NaN, hip],
    ['steps', 3601, hip],
    ['hip.xMm', 360, { xMm: Number.NaN, yMm: 700 }],
    ['hip.yMm', 360, { xMm: -230, yMm: 7000 }],
  ])('refuses an impossible %s by name (%d steps)', (field, steps, place) => {
    expect(() => revolution(leg, clock, place, steps)).toThrow(
      expect.objectContaining({ name: 'FitMathError', field }),
    );
  });

  it('refuses an impossible hip by name wherever one is taken', () => {
    const place = { xMm: -230, yMm: Number.POSITIVE_INFINITY };
    for (const call of [
      () => straightest(leg, clock, place),
      () => jointAngles(leg, clock, place, 90),
      () => revolution(leg, clock, place),
    ]) {
      expect(call).toThrow(expect.objectContaining({ field: 'hip.yMm' }));
    }
  });

  it('says so when hip and ankle come nearer than the segments differ', () => {
    const uneven = { ...leg, thighMm: 600, shankMm: 250 };
    const low = { xMm: -100, yMm: 480 };
    for (const call of [() => straightest(uneven, clock, low), () => revolution(uneven, clock, low)]) {
      expect(call).toThrow(expect.objectContaining({ code: 'leg.cannot-reach' }));
    }
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
