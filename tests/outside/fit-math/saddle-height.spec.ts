import { describe, expect, it } from '@jest/globals';
import {
  compareSaddleHeights,
  crankProportions,
  kneeFlexionTargets,
  readsStraighterInPlaneDeg,
  saddleHeightRules,
  type SaddleHeightInputs,
  type SaddleHeightRule,
} from '@studio/fit-math';

function row(rule: SaddleHeightRule['id'], inputs: SaddleHeightInputs, crankLengthMm: number) {
  const found = compareSaddleHeights(inputs, crankLengthMm).rows.find((each) => each.rule === rule);
  if (!found) throw new Error(`no row for ${rule}`);
  return found;
}

describe('saddle-height rules, each from its own datum', () => {
  it('0.883 from the bottom bracket and 1.09 from the spindle agree where the crank is 0.207 of the inseam (algebra; Peveler et al. 2005 found no difference, p = 0.917)', () => {
    for (const inseamMm of [700, 825, 950]) {
      const crank = 0.207 * inseamMm;
      expect(row('inseam-1.09', { inseamMm }, crank).saddleHeightMm.value).toBeCloseTo(
        row('inseam-0.883', { inseamMm }, crank).saddleHeightMm.value,
        8,
      );
    }
  });

  it('pooled ANSUR II means, Gordon et al. 2014: crotch height 825.1, trochanterion 882.7 mm', () => {
    const mean = { inseamMm: 825.1, trochanterHeightMm: 882.7 };
    expect(row('inseam-1.09', mean, 170.8).publishedHeightMm).toBeCloseTo(899.4, 1);
    expect(row('inseam-0.883', mean, 170.8).publishedHeightMm).toBeCloseTo(728.6, 1);
    expect(row('inseam-1.09', mean, 170.8).saddleHeightMm.value).toBeCloseTo(728.6, 1);
    expect(row('trochanter-1.00', mean, 170.8).publishedHeightMm).toBeCloseTo(882.7, 1);
  });

  it('trochanter height as published stands at 1.0698 of the crotch of the pooled survey: 107 % (Nordeen-Snyder 1977, from memory)', () => {
    const mean = { inseamMm: 825.11, trochanterHeightMm: 882.74 };
    const ratio = row('trochanter-1.00', mean, 170).publishedHeightMm / mean.inseamMm;
    expect(Math.abs(ratio / 1.07 - 1)).toBeLessThan(0.005);
  });

  it('García-López: 0.611 × stature − 32.77 cm, which lands by the other bottom-bracket rule at the survey’s mean', () => {
    const mean = { statureMm: 1714.41, inseamMm: 825.11 };
    const { publishedHeightMm } = row('stature-regression', mean, 170);
    expect(publishedHeightMm / 10).toBeCloseTo(0.611 * 171.441 - 32.77, 9);
    // The datum is not stated; from the spindle it would be a crank's length off.
    expect(Math.abs(publishedHeightMm - row('inseam-0.883', mean, 170).publishedHeightMm)).toBeLessThan(15);
  });

  it.each([
    [30, 110.4],
    [40, 108.6],
  ])(
    'Ferrer-Roca et al. 2012 (coefficients from memory): %d° riding is the published %d %% of inseam',
    (dynamicKneeFlexionDeg, percent) => {
      const inputs = { inseamMm: 846.5, dynamicKneeFlexionDeg };
      const found = row('inseam-and-knee-flexion', inputs, 172.5).publishedHeightMm / 8.465;
      expect(Math.abs(found - percent)).toBeLessThan(0.1);
    },
  );
});

describe('published bands of knee flexion', () => {
  it.each([
    ['static-25-35', 'staticBottomDeg', [25, 35], 'Holmes'],
    ['riding-easy-33-43', 'dynamicBottomDeg', [33, 43], 'Swart & Holliday 2019'],
    ['riding-hard-30-40', 'dynamicBottomDeg', [30, 40], 'Swart & Holliday 2019'],
    ['riding-straightest-30-40', 'dynamicStraightestDeg', [30, 40], 'Ferrer-Roca et al. 2012'],
  ] as const)('%s is read %s and runs over %j degrees: %s', (id, reading, flexionDeg, source) => {
    const target = kneeFlexionTargets.find((one) => one.id === id);
    expect(target).toMatchObject({ reading, flexionDeg });
    expect(target?.source).toContain(source);
  });

  it('Fonda, Šarabon & Li 2014, J Sports Sci 32(10):940–946: film in one plane reads 2.2° straighter', () => {
    expect(readsStraighterInPlaneDeg).toBe(2.2);
  });
});

describe('formulas that are not fit for use', () => {
  it('has no rule from a coefficient printed to one digit (Gatti et al. 2021: ±3 cm of height), none without units (Sprules 2000) and none of 0.96 of the trochanter', () => {
    const sources = [...saddleHeightRules, ...crankProportions].map(({ source }) => source).join(' ');
    expect(sources).not.toMatch(/Gatti|Sprules|Price/);
    const known = { inseamMm: 825, trochanterHeightMm: 883, statureMm: 1714, dynamicKneeFlexionDeg: 35 };
    for (const { heightMm } of saddleHeightRules) {
      expect(Math.abs(heightMm(known) / known.trochanterHeightMm - 0.96)).toBeGreaterThan(0.01);
    }
  });
});
