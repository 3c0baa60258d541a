import { describe, expect, it } from '@jest/globals';
import { segmentsFromHeights, segmentsFromStature, statureTables } from '@studio/fit-math';

const table = (id: string) => statureTables.find((one) => one.id === id) ?? statureTables[0];

/** ANSUR II, Gordon et al. 2014, NATICK/TR-15/007: means of the released records, heights standing. */
const survey = {
  men: {
    statureMm: 1756.2,
    trochanterMm: 900.6,
    kneeMm: 491.6,
    malleolusMm: 72.9,
    thighMm: 409.0,
    shankMm: 418.7,
  },
  women: {
    statureMm: 1628.5,
    trochanterMm: 845.2,
    kneeMm: 465.8,
    malleolusMm: 62.7,
    thighMm: 379.4,
    shankMm: 403.1,
  },
  pooled: { statureMm: 1714.41, trochanterMm: 882.74, kneeMm: 483.24, malleolusMm: 69.58, crotchMm: 825.11 },
};
const shoe = { ankleFromHeelMm: 75, cleatFromHeelMm: 205, underFootMm: 42 };

describe('Drillis & Contini 1966 by way of Winter 2009, fig. 4.1 (secondary copies): shares of stature', () => {
  it('closes exactly: 0.530 − 0.285 − 0.039 leaves thigh 0.245 and shank 0.246', () => {
    const { thigh, shank, ankleHeight } = table('drillis-contini');
    expect([thigh, shank, ankleHeight]).toEqual([0.245, 0.246, 0.039]);
    expect(0.53 - 0.285).toBeCloseTo(thigh, 12);
    expect(0.285 - 0.039).toBeCloseTo(shank, 12);
    expect(thigh + shank + ankleHeight).toBeCloseTo(0.53, 12);
    expect(table('drillis-contini').footLength).toBe(0.152);
  });
});

describe('ANSUR II landmark heights, Gordon et al. 2014, NATICK/TR-15/007', () => {
  it.each(['men', 'women'] as const)('gives the published thigh and shank of the mean %s, ±0.1 mm', (who) => {
    const { trochanterMm, kneeMm, malleolusMm, thighMm, shankMm } = survey[who];
    const found = segmentsFromHeights({
      trochanterHeightMm: trochanterMm,
      kneeHeightMm: kneeMm,
      malleolusHeightMm: malleolusMm,
      ...shoe,
    });
    expect(Math.abs(found.thighMm.value - thighMm)).toBeLessThan(0.1);
    expect(Math.abs(found.shankMm.value - shankMm)).toBeLessThan(0.1);
  });

  it('has men and women together where the pooled row is: 4082 and 1986 people, ±0.3 mm', () => {
    const pooled = (name: 'statureMm' | 'trochanterMm' | 'kneeMm' | 'malleolusMm'): number =>
      (4082 * survey.men[name] + 1986 * survey.women[name]) / 6068;
    for (const name of ['statureMm', 'trochanterMm', 'kneeMm', 'malleolusMm'] as const) {
      expect(Math.abs(pooled(name) - survey.pooled[name])).toBeLessThan(0.3);
    }
  });

  it('holds the shares of the survey’s table to the pooled ratios, ±0.5 %', () => {
    const { thigh, shank, ankleHeight, footLength } = table('landmark-survey');
    expect(Math.abs((thigh + shank + ankleHeight) / 0.5149 - 1)).toBeLessThan(0.005);
    expect(Math.abs(footLength / 0.1534 - 1)).toBeLessThan(0.005);
    // Which hip height: 0.530 in the one table, 0.513 to 0.519 measured. They are not to be mixed.
    expect(0.53 / (thigh + shank + ankleHeight)).toBeGreaterThan(1.025);
  });

  it.each(['men', 'women'] as const)('errs on the mean %s by less than the error it states', (who) => {
    for (const { id } of statureTables) {
      const guessed = segmentsFromStature({ statureMm: survey[who].statureMm, table: id, underFootMm: 42 });
      expect(Math.abs(guessed.thighMm.value - survey[who].thighMm)).toBeLessThan(guessed.thighMm.sd);
      expect(Math.abs(guessed.shankMm.value - survey[who].shankMm)).toBeLessThan(guessed.shankMm.sd);
    }
  });

  it('trochanterion over crotch is 1.0698: what joins the trochanter rule to 107 % of the pubis, Nordeen-Snyder 1977 (from memory)', () => {
    expect(survey.pooled.trochanterMm / survey.pooled.crotchMm).toBeCloseTo(1.0698, 4);
  });
});

describe('de Leva 1996, J Biomech 29:1223–1230, men (secondary): joint-centre shares of stature', () => {
  it('lies between the two tables in the thigh and within the stated error in the shank', () => {
    const guessed = segmentsFromStature({ statureMm: 1741, table: 'landmark-survey', underFootMm: 42 });
    expect(0.2425).toBeGreaterThan(table('landmark-survey').thigh);
    expect(0.2425).toBeLessThan(table('drillis-contini').thigh);
    expect(Math.abs(0.2493 * 1741 - guessed.shankMm.value)).toBeLessThan(guessed.shankMm.sd);
  });
});
