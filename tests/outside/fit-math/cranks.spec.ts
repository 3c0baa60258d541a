import { describe, expect, it } from '@jest/globals';
import { compareCrankLengths, crankChange, type RiderOnBike } from '@studio/fit-math';

const rider: RiderOnBike = {
  leg: { thighMm: 409, shankMm: 418.7, footLeverMm: 135, ankleAboveSpindleMm: 115, crankLengthMm: 170 },
  footPitch: { kind: 'constant', pitchDeg: 10 },
  minimumKneeFlexionDeg: 35,
  seatTubeAngleDeg: 73,
};

describe('crank length', () => {
  it('Martin & Spirduso 2001, Eur J Appl Physiol 84:413–418 (20 % and 41 % from memory): both land between their 145 and 195 mm, which did not differ, at the survey’s mean leg', () => {
    // ANSUR II pooled, Gordon et al. 2014, NATICK/TR-15/007: trochanterion 882.74; tibial height less malleolus.
    const { rows } = compareCrankLengths({ legLengthMm: 882.74, tibiaLengthMm: 458.24 - 69.58 });
    const [leg, tibia] = rows.map(({ crankLengthMm }) => crankLengthMm.value);
    expect(leg).toBeCloseTo(176.548, 3);
    expect(tibia).toBeCloseTo(159.3506, 3);
    for (const { crankLengthMm } of rows.slice(0, 2)) {
      expect(crankLengthMm.value).toBeGreaterThan(145);
      expect(crankLengthMm.value).toBeLessThan(195);
    }
  });

  it('Too & Williams: 238 − 0.25 × leg + 0.3 × lower leg, ± 22 mm', () => {
    const { rows } = compareCrankLengths({ legLengthMm: 900, tibiaLengthMm: 400 });
    const row = rows.find(({ proportion }) => proportion === 'leg-and-tibia');
    expect(row?.crankLengthMm.value).toBeCloseTo(133, 9);
    expect(row?.crankLengthMm.sd).toBeGreaterThan(22);
  });

  it.each([120, 145, 195, 220])(
    'Martin & Spirduso 2001 held the saddle to the pedal: from 170 to %d mm the chain asks for that within 1 %%',
    (newCrankLengthMm) => {
      const { saddleChangeMm, saddleChangeToPedalMm } = crankChange(rider, newCrankLengthMm);
      expect(saddleChangeToPedalMm).toBe(170 - newCrankLengthMm);
      expect(Math.abs(saddleChangeMm.value / saddleChangeToPedalMm - 1)).toBeLessThan(0.01);
    },
  );
});
