import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { covers, difference, intersection, union, type Interval, type IntervalSet } from './interval-set.js';

const intervals = fc.array(
  fc.record({ start: fc.integer({ min: 0, max: 40 }), end: fc.integer({ min: 0, max: 40 }) }),
  { maxLength: 12 },
);
const points = Array.from({ length: 42 }, (_, point) => point);
const holds = (list: readonly Interval[], point: number): boolean =>
  list.some(({ start, end }) => start <= point && point < end);

/** Sorted, not empty, apart from one another. */
function expectSet(set: IntervalSet): void {
  let last = -Infinity;
  for (const { start, end } of set) {
    expect(start).toBeGreaterThan(last);
    expect(end).toBeGreaterThan(start);
    last = end;
  }
}

describe('sets of intervals agree with sets of points', () => {
  it('for union, intersection and difference', () => {
    fc.assert(
      fc.property(intervals, intervals, (a, b) => {
        const [left, right] = [union(a), union(b)];
        const [both, rest] = [intersection(left, right), difference(left, right)];
        for (const set of [left, both, rest]) expectSet(set);
        const found = points.map((point) => [left, both, rest].map((set) => holds(set, point)));
        expect(found).toEqual(
          points.map((point) => {
            const [inA, inB] = [holds(a, point), holds(b, point)];
            return [inA, inA && inB, inA && !inB];
          }),
        );
      }),
      { numRuns: 500 },
    );
  });

  it('for covering', () => {
    fc.assert(
      fc.property(
        intervals,
        fc.integer({ min: 0, max: 39 }),
        fc.integer({ min: 1, max: 9 }),
        (a, start, length) => {
          const end = Math.min(start + length, 41);
          const every = points
            .filter((point) => start <= point && point < end)
            .every((point) => holds(a, point));
          expect(covers(union(a), { start, end })).toBe(every);
        },
      ),
      { numRuns: 500 },
    );
  });
});
