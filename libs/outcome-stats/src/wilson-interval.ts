import jStat from 'jstat';
import type { Interval } from './finding.js';

/**
 * 95 % score interval of a share.
 *
 * @param count 0–n
 * @param n 1 or more
 * @param continuityCorrection `true` widens it so that it covers at least 95 % (Newcombe's method 4 instead of 3)
 * @returns shares, 0–1
 * @throws RangeError when count and n are no such whole numbers
 * @source Wilson 1927, J Am Stat Assoc 22:209–212; Newcombe 1998, Stat Med 17:857–872, methods 3 and 4
 * @example wilsonInterval(81, 263, false); // { low: 0.2553…, high: 0.3662… }
 */
export function wilsonInterval(count: number, n: number, continuityCorrection: boolean): Interval {
  if (!Number.isInteger(count) || !Number.isInteger(n) || n < 1 || count < 0 || count > n) {
    throw new RangeError(`no share: ${count} of ${n}`);
  }
  const low = lowerEnd(count, n, continuityCorrection);
  return { low, high: 1 - lowerEnd(n - count, n, continuityCorrection) };
}

function lowerEnd(count: number, n: number, continuityCorrection: boolean): number {
  if (count === 0) return 0;
  const z = jStat.normal.inv(0.975, 0, 1);
  const share = count / n;
  const unexplained = 1 - share;
  const root = continuityCorrection
    ? z ** 2 - 2 - 1 / n + 4 * share * (n * unexplained + 1)
    : z ** 2 + 4 * count * unexplained;
  const numerator = 2 * count + z ** 2 - (continuityCorrection ? 1 : 0) - z * Math.sqrt(root);
  return Math.max(0, numerator / (2 * (n + z ** 2)));
}
