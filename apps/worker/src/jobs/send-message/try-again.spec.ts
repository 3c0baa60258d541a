import { describe, expect, it } from '@jest/globals';
import { waitBeforeNextTry } from './try-again.js';

describe('waitBeforeNextTry', () => {
  const all = (random: number) =>
    Array.from({ length: 12 }, (_, index) => waitBeforeNextTry(index + 1, random));

  it('waits longer each time, about two days in all, and then gives up', () => {
    const waits = all(0.5);
    expect(waits.slice(9)).toEqual([null, null, null]);
    const waited = waits.slice(0, 9) as number[];
    expect(waited).toEqual([...waited].sort((one, other) => one - other));
    const hours = waited.reduce((sum, wait) => sum + wait, 0) / 3_600_000;
    expect(hours).toBeGreaterThan(40);
    expect(hours).toBeLessThan(72);
  });

  it('spreads by a fifth to either side', () => {
    expect([waitBeforeNextTry(1, 0), waitBeforeNextTry(1, 1)]).toEqual([4000, 6000]);
  });
});
