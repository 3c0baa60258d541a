import { describe, expect, it } from '@jest/globals';
import { clinicallyLargeMm, judgeLegLength, legLengthMethods, legLengthOptions } from '@studio/fit-math';

const asked = { nature: 'structural', newOrChanged: false, complaints: false } as const;

describe('published leg-length differences', () => {
  it('Knutson 2005, Chiropr Osteopat 13:11: the mean difference of 5.2 mm goes to no clinician, 20 mm does', () => {
    expect(clinicallyLargeMm).toBe(20);
    const mean = judgeLegLength({ ...asked, method: 'image', readingsMm: [5.2] });
    expect(mean.beyondError).toBe(true);
    expect(mean.referTo).toEqual([]);
    const large = judgeLegLength({ ...asked, method: 'image', readingsMm: [20] });
    expect(large.referTo.map(({ code }) => code)).toEqual(['large']);
  });

  it('Jamaluddin et al. 2011, Singapore Med J 52(9):681–684: limits of −3.17 to 7.07 mm are ±1.96 of the tape’s error', () => {
    const tapeSdMm = legLengthMethods.find(({ id }) => id === 'tape')?.sdMm ?? Number.NaN;
    expect(Math.abs(tapeSdMm - (7.07 + 3.17) / 2 / 1.96)).toBeLessThan(0.05);
    expect(Math.abs((7.07 - 3.17) / 2 - 1.95)).toBeLessThan(0.005);
  });

  it('J Rheumatol 2014;41(8):1689–1694: a tape that picks the wrong leg in 7 of 20 must not name one at 5 mm', () => {
    expect(judgeLegLength({ ...asked, method: 'tape', readingsMm: [5] }).longerSide).toBe('cannot-tell');
    expect(judgeLegLength({ ...asked, method: 'blocks', readingsMm: [5] }).longerSide).toBe('cannot-tell');
  });

  it('Pruitt & Matheny 2006 (secondary): shim above 3 mm only, by half the difference', () => {
    const shim = (value: number) =>
      legLengthOptions({
        rider: {
          leg: {
            thighMm: 409,
            shankMm: 418.7,
            footLeverMm: 140,
            ankleAboveSpindleMm: 115,
            crankLengthMm: 172.5,
          },
          footPitch: { kind: 'constant', pitchDeg: 15 },
          minimumKneeFlexionDeg: 35,
          seatTubeAngleDeg: 73,
        },
        differenceMm: { value, sd: 1 },
        carriedBy: 'both',
        nature: 'structural',
        staggerMm: 0,
      }).options.find(({ id }) => id === 'shim');
    expect(shim(3)?.offered).toBe(false);
    expect(shim(3.1)?.offered).toBe(true);
    expect(shim(8)?.shimMm).toBe(4);
  });

  it('two-link geometry, ankle fixed, thigh 409.0, shank 418.7 mm (derived): 4.6° of knee to the centimetre at 35°', () => {
    const none = legLengthOptions({
      rider: {
        leg: {
          thighMm: 409,
          shankMm: 418.7,
          footLeverMm: 140,
          ankleAboveSpindleMm: 115,
          crankLengthMm: 172.5,
        },
        footPitch: { kind: 'constant', pitchDeg: 15 },
        minimumKneeFlexionDeg: 35,
        seatTubeAngleDeg: 73,
      },
      differenceMm: { value: 10, sd: 1 },
      carriedBy: 'both',
      nature: 'structural',
      staggerMm: 0,
    }).options.find(({ id }) => id === 'none');
    const apartDeg = none?.saddles.find(({ setFor }) => setFor === 'between')?.kneeDifferenceDeg.value ?? 0;
    // Half of the centimetre lies on each leg, in its length rather than in the reach: within a tenth.
    expect(Math.abs(apartDeg / 4.6 - 1)).toBeLessThan(0.1);
  });
});
