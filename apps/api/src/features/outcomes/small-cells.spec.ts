import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { hideSmallCounts } from './small-cells.js';

describe('hideSmallCounts', () => {
  it('hides what is small, and one more where it could be worked out from the total', () => {
    expect(hideSmallCounts([9, 2, 0, 7])).toEqual([9, null, 0, null]);
    expect(hideSmallCounts([9, 2, 3, 7])).toEqual([9, null, null, 7]);
    expect(hideSmallCounts([9, 5, 0])).toEqual([9, 5, 0]);
    expect(hideSmallCounts([0, 3, 0])).toEqual([null, null, 0]);
  });

  it('never shows one from 1 to 4, nor lets a hidden one be worked out', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(12), { minLength: 2, maxLength: 6 }), (counts) => {
        const shown = hideSmallCounts(counts);
        expect(shown.filter((count) => count !== null && count > 0 && count < 5)).toEqual([]);
        expect(shown.filter((count) => count === null).length).not.toBe(1);
        shown.forEach((count, index) => {
          expect([counts[index], null]).toContain(count);
        });
      }),
    );
  });
});
