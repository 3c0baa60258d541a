import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  checkRacingSaddle,
  effectiveSeatAngle,
  kneeOverSpindle,
  saddlePlace,
  swapSaddle,
  widthPointSetback,
  type KneeOverSpindleInput,
  type RacingSaddleInput,
  type SaddleShape,
} from '../index.js';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anySaddle = fc.record({
  lengthMm: number(260, 300),
  tipTo80MmWidthMm: number(80, 200),
  railToTopMm: number(30, 70),
});
const long: SaddleShape = { lengthMm: 275, tipTo80MmWidthMm: 145, railToTopMm: 45 };
const short: SaddleShape = { lengthMm: 245, tipTo80MmWidthMm: 110, railToTopMm: 48 };

const knee: KneeOverSpindleInput = {
  leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
  footPitch: { kind: 'constant', pitchDeg: 10 },
  hip: { xMm: -237.8, yMm: 777.9 },
  landmark: 'patella_lower_pole',
  landmarkAheadOfKneeJointMm: 30,
};

describe('saddlePlace', () => {
  it('is undone by effectiveSeatAngle', () => {
    fc.assert(
      fc.property(number(500, 900), number(60, 95), (saddleHeightMm, angleDeg) => {
        const back = effectiveSeatAngle(saddlePlace(saddleHeightMm, angleDeg));
        expect(back.saddleHeightMm).toBeCloseTo(saddleHeightMm, 9);
        expect(back.effectiveSeatAngleDeg).toBeCloseTo(angleDeg, 9);
      }),
    );
  });
});

describe('swapSaddle', () => {
  it('keeps where the rider sits, and swapping back restores the tip', () => {
    fc.assert(
      fc.property(number(0, 100), anySaddle, anySaddle, (tipSetbackMm, now, other) => {
        const there = swapSaddle(tipSetbackMm, now, other);
        expect(widthPointSetback(there.tipSetbackMm.value, other).value).toBeCloseTo(
          widthPointSetback(tipSetbackMm, now).value,
          9,
        );
        const back = swapSaddle(there.tipSetbackMm.value, other, now);
        expect(back.tipSetbackMm.value).toBeCloseTo(tipSetbackMm, 9);
        expect(back.railHeightChangeMm.value).toBeCloseTo(-there.railHeightChangeMm.value, 9);
      }),
    );
  });

  it('puts the tip of a shorter saddle farther back, with the error of three readings', () => {
    const { tipSetbackMm, railHeightChangeMm } = swapSaddle(55, long, short);
    expect(tipSetbackMm).toEqual({ value: 90, sd: Math.sqrt(3) });
    expect(railHeightChangeMm.value).toBe(-3);
  });

  it('refuses a saddle widest beyond its own end', () => {
    expect(() => swapSaddle(55, long, { ...short, tipTo80MmWidthMm: 246 })).toThrow(
      expect.objectContaining({ field: 'other.tipTo80MmWidthMm' }),
    );
  });
});

describe('kneeOverSpindle', () => {
  it('follows the landmark one to one and the hip nearly so', () => {
    const at = (change: Partial<KneeOverSpindleInput>): number =>
      kneeOverSpindle({ ...knee, ...change }).aheadOfSpindleMm.value;
    expect(at({ landmarkAheadOfKneeJointMm: 42 }) - at({})).toBeCloseTo(12, 9);
    const hipForward = at({ hip: { ...knee.hip, xMm: knee.hip.xMm + 10 } }) - at({});
    expect(hipForward).toBeGreaterThan(2);
    expect(hipForward).toBeLessThan(10);
  });

  it('agrees with the knee built by two circles about hip and ankle', () => {
    // Ankle at crank 90°, foot 10° toe-down, by hand.
    const pitch = Math.PI / 18;
    const ankleX = 172.5 - 140 * Math.cos(pitch) + 120 * Math.sin(pitch);
    const ankleY = 140 * Math.sin(pitch) + 120 * Math.cos(pitch);
    const { value } = kneeOverSpindle(knee).aheadOfSpindleMm;
    const kneeX = value + 172.5 - 30;
    // On the circle about the hip, above the ankle: the shank's length must come out.
    const kneeY = knee.hip.yMm - Math.sqrt(434 ** 2 - (kneeX - knee.hip.xMm) ** 2);
    expect(Math.hypot(kneeX - ankleX, kneeY - ankleY)).toBeCloseTo(425, 6);
  });

  it('is less certain for a rider measured less well', () => {
    const exact = {
      thighMm: 0,
      shankMm: 0,
      footLeverMm: 0,
      ankleAboveSpindleMm: 0,
      footPitchDeg: 0,
      hipXMm: 0,
      hipYMm: 0,
      landmarkAheadOfKneeJointMm: 0,
    };
    expect(kneeOverSpindle(knee, exact).aheadOfSpindleMm.sd).toBe(0);
    expect(
      kneeOverSpindle(knee, { ...exact, landmarkAheadOfKneeJointMm: 5 }).aheadOfSpindleMm.sd,
    ).toBeCloseTo(5, 9);
    expect(kneeOverSpindle(knee).aheadOfSpindleMm.sd).toBeGreaterThan(5);
  });
});

describe('checkRacingSaddle', () => {
  const level: RacingSaddleInput = {
    tipSetbackMm: 60,
    saddleLengthMm: 270,
    tiltDeg: -2,
    tipExemption: false,
  };

  it('never calls met what was not measured', () => {
    const unknown = { tipSetbackMm: null, saddleLengthMm: null, tiltDeg: null, tipExemption: null };
    expect(checkRacingSaddle(unknown)).toMatchObject({
      tipSetback: 'cannot-tell',
      saddleLength: 'cannot-tell',
      tilt: 'cannot-tell',
    });
  });

  it.each([
    [60, null, 'meets'],
    [49, null, 'cannot-tell'],
    [49, true, 'meets'],
    [49, false, 'breaks'],
    [-1, true, 'breaks'],
    [-1, null, 'breaks'],
  ] as const)('tip %d mm behind, exemption %s: %s', (tipSetbackMm, tipExemption, result) => {
    expect(checkRacingSaddle({ ...level, tipSetbackMm, tipExemption }).tipSetback).toBe(result);
  });

  it('names the edition and warns of later ones', () => {
    const check = checkRacingSaddle(level);
    expect(check.edition).toContain('2014');
    expect(check.cautions.map(({ code }) => code)).toEqual(['edition']);
  });
});
