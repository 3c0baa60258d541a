import { setImmediate as turn, setTimeout as sleep } from 'node:timers/promises';

/** @typedef {{ who: string, ms: number, failed: boolean }} Answered `ms`: from when it was due, not from when it was sent */

/**
 * An open model: requests arrive as a Poisson process, whether or not those before them have been answered, so that a
 * server that falls behind is not spared.
 *
 * @param {{ perSecond: number, seconds: number, random: () => number }} load
 * @param {() => { who: string, answer: Promise<boolean> }} arrive `answer` tells whether it was the one expected
 * @returns {Promise<{ answered: Answered[], seconds: number }>} `seconds`: until the last was answered
 */
export async function arrivals({ perSecond, seconds, random }, arrive) {
  /** @type {Answered[]} */
  const answered = [];
  /** @type {Set<Promise<void>>} */
  const open = new Set();
  const begun = performance.now();
  let due = begun;
  for (;;) {
    due += (-Math.log(1 - random()) * 1000) / perSecond;
    if (due > begun + seconds * 1000) break;
    const early = due - performance.now();
    await (early > 1 ? sleep(early) : turn());
    const from = due;
    const { who, answer } = arrive();
    const one = answer
      .catch(() => false)
      .then((expected) => {
        answered.push({ who, ms: performance.now() - from, failed: !expected });
        open.delete(one);
      });
    open.add(one);
  }
  await Promise.all(open);
  return { answered, seconds: (performance.now() - begun) / 1000 };
}

/** @param {readonly number[]} ordered @param {number} share of them that are not above it */
export const quantile = (ordered, share) =>
  ordered[Math.min(ordered.length - 1, Math.floor(share * ordered.length))] ?? NaN;
