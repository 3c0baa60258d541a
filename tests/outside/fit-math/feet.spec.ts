import { describe, expect, it } from '@jest/globals';
import { cleatPlaces, type FootLandmarks } from '@studio/fit-math';

/** Pooled means of ANSUR II, n 6068: Gordon et al. 2014, NATICK/TR-15/007. */
const survey = { footLengthMm: 263.03, ballOfFootLengthMm: 194.75 };
/** What a shoe adds behind the heel and around the foot. Common practice, no source. */
const shoe = { behindTheHeelMm: 8, aroundTheFootMm: 22 };

const foot: FootLandmarks = {
  mth1FromHeelMm: survey.ballOfFootLengthMm + shoe.behindTheHeelMm,
  mth5FromHeelMm: survey.ballOfFootLengthMm + shoe.behindTheHeelMm - 24,
  heelBoneFromHeelMm: shoe.behindTheHeelMm,
};
const placeMm = (rule: string): number =>
  cleatPlaces(foot).places.find((one) => one.rule === rule)?.cleatFromHeelMm.value ?? Number.NaN;

describe('places for the spindle under the mean foot of the survey', () => {
  it('ball of foot over foot length is 0.7404, ±0.5 %', () => {
    expect(survey.ballOfFootLengthMm / survey.footLengthMm).toBeCloseTo(0.7404, 4);
    const ratio = (placeMm('under-first-head') - shoe.behindTheHeelMm) / survey.footLengthMm;
    expect(Math.abs(ratio / 0.7404 - 1)).toBeLessThan(0.005);
  });

  it('Van Sickle & Hull 2007, J Biomech 40:1262–1267: middle and rear places lie 49 and 97 mm behind the first head', () => {
    expect(Math.abs(placeMm('under-first-head') - placeMm('quarter-to-heel') - 49)).toBeLessThan(0.5);
    expect(Math.abs(placeMm('under-first-head') - placeMm('half-to-heel') - 97)).toBeLessThan(0.5);
  });

  it('Ramos-Ortega et al. 2012, Science & Sports 27:e55–e61: a cleat base at 0.43 of the shoe from its tip, 36 ± 8 mm behind the first head, puts the spindle under it', () => {
    const shoeLengthMm = survey.footLengthMm + shoe.aroundTheFootMm;
    const spindleFromHeelMm = (1 - 0.43) * shoeLengthMm + 36;
    expect(Math.abs(spindleFromHeelMm - placeMm('under-first-head'))).toBeLessThan(8);
  });
});
