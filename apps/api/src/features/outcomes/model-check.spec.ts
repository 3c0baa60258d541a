import { describe, expect, it } from '@jest/globals';
import { modelCheck } from './model-check.js';
import type { Prediction } from './model-check.queries.js';

const offset = (offsetMm: number) => ({
  version: 1,
  offsetMm,
  because: null,
  appliedBy: null,
  appliedAt: null,
});
/** Sessions left so many mm from what was computed. */
const left = (footPitchDeg: number, ...differences: number[]): Prediction[] =>
  differences.map((difference) => ({ predictedMm: -10, leftMm: -10 + difference, footPitchDeg }));

describe('modelCheck', () => {
  it('says by how much saddles are left from the formula, overall and by foot pitch', () => {
    const check = modelCheck([...left(25, 3, 5), ...left(-5, -1, 1)], offset(0));
    expect(check.overall).toMatchObject({ n: 4, biasMm: 2 });
    expect(check.byFootPitch.map(({ footPitch, n, biasMm }) => [footPitch, n, biasMm])).toEqual([
      ['below_0', 2, 0],
      ['from_0_to_10', 0, null],
      ['from_10_to_20', 0, null],
      ['from_20', 2, 4],
    ]);
    // Standard deviation of 3, 5, −1, 1 is 2.58…; limits 2 ± 1.96 times it.
    expect(check.overall.sentence).toMatch(
      /^In 4 sessions the saddle was left \+2\.0 mm from what was computed \(95 % interval .*\); 95 % lie within −3\.1 to \+7\.1 mm\.$/,
    );
  });

  const offByTwo = left(10, 1, 2, 3, 1, 2, 3);

  it('suggests the bias as an offset when it is beyond its error', () => {
    expect(modelCheck(offByTwo, offset(0)).suggested).toMatchObject({ offsetMm: 2 });
    expect(modelCheck(left(10, 1.1, 2.4, 3.2, 1, 2, 3), offset(0)).suggested?.offsetMm).toBe(2);
  });

  it.each([
    ['the interval holds no bias', left(10, -3, 4, -2, 3, -4, 5), 0],
    ['the offset in force says it already', offByTwo, 2],
    ['five sessions are all there is', left(10, 1, 2, 3, 1, 2), 0],
    ['the bias is finer than a saddle can be set', left(10, 0.1, 0.2, 0.1, 0.2, 0.1, 0.2), 0],
    ['all differ by the same, so there is no error to judge by', left(10, 2, 2, 2, 2, 2, 2), 0],
    ['there is nothing', [], 0],
  ])('suggests nothing when %s', (_, predictions, inForce) => {
    expect(modelCheck(predictions, offset(inForce)).suggested).toBeNull();
  });

  it('suggests taking an offset back that the sessions do not bear out', () => {
    expect(modelCheck(left(10, -1, 0, 1, -0.5, 0.5, 0), offset(3)).suggested?.offsetMm).toBe(0);
  });
});
