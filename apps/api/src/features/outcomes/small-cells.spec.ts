import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { fewestShown, hideSmallCells, hideSmallCounts } from './small-cells.js';

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

describe('hideSmallCells', () => {
  it('hides what rows and columns would tell', () => {
    // Of all (first) and of two fitters: planned, came, did not come.
    const table = [
      [40, 31, 9],
      [22, 20, 2],
      [18, 11, 7],
    ];
    expect(hideSmallCells(table)).toEqual([
      [40, 31, 9],
      [22, null, null],
      [18, null, null],
    ]);
  });

  it('shows no small count, and leaves no line with a single hidden cell', () => {
    const parts = fc.array(fc.nat({ max: 12 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(fc.array(parts, { minLength: 1, maxLength: 4 }), (rows) => {
        const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);
        const whole = [0, 1, 2].map((x) => sum(rows.map((row) => row[x] ?? 0)));
        const table = [whole, ...rows].map((row) => [sum(row), ...row]);
        const shown = hideSmallCells(table);
        const lines = [...shown, ...(shown[0] ?? []).map((_, x) => shown.map((row) => row[x] ?? null))];
        for (const line of lines) expect(line.filter((cell) => cell === null)).not.toHaveLength(1);
        for (const [y, row] of shown.entries()) {
          for (const [x, cell] of row.entries()) {
            if (cell === null) continue;
            expect(cell).toBe(table[y]?.[x]);
            expect(cell === 0 || cell >= fewestShown).toBe(true);
          }
        }
      }),
    );
  });
});
