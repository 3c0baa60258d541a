import type { ChangeSummary } from './change-summary.js';
import type { Estimate } from './estimate.js';

/**
 * How much more one group changed than another. People chose or were given what they got, so a difference is not
 * proof that it came from there: mark it as not randomised wherever it is shown.
 *
 * @param spread `equal` pools the standard deviations (Student), `unequal` does not (Welch)
 * @returns first minus second; value and standard error are null below two people in either group
 * @source Student 1908, Biometrika 6:1–25; Welch 1947, Biometrika 34:28–35
 * @example groupDifference(midfoot, standard, 'unequal').value;
 */
export function groupDifference(
  first: ChangeSummary,
  second: ChangeSummary,
  spread: 'equal' | 'unequal',
): Estimate {
  const n = first.n + second.n;
  const missing = first.missing + second.missing;
  if (
    first.mean === null ||
    second.mean === null ||
    first.standardDeviation === null ||
    second.standardDeviation === null
  ) {
    return { n, missing, value: null, standardError: null, degreesOfFreedom: 0 };
  }
  const value = first.mean - second.mean;
  const firstVariance = first.standardDeviation ** 2;
  const secondVariance = second.standardDeviation ** 2;
  switch (spread) {
    case 'equal': {
      const degreesOfFreedom = n - 2;
      const pooled = ((first.n - 1) * firstVariance + (second.n - 1) * secondVariance) / degreesOfFreedom;
      const standardError = Math.sqrt(pooled * (1 / first.n + 1 / second.n));
      return { n, missing, value, standardError, degreesOfFreedom };
    }
    case 'unequal': {
      const a = firstVariance / first.n;
      const b = secondVariance / second.n;
      const degreesOfFreedom = (a + b) ** 2 / (a ** 2 / (first.n - 1) + b ** 2 / (second.n - 1)) || 0;
      return { n, missing, value, standardError: Math.sqrt(a + b), degreesOfFreedom };
    }
  }
}
