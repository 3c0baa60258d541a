import { describe, expect, it } from '@jest/globals';
import { positionsSideBySide, type PositionFigures } from '../index.js';

const figures = (values: PositionFigures['values']): PositionFigures => ({ values, methods: {} });

describe('positionsSideBySide', () => {
  it('tells the difference, and what is to be changed where the second is known', () => {
    const rows = positionsSideBySide(
      figures({ saddleHeightMm: 740, hoodDropMm: 55 }),
      figures({ saddleHeightMm: 726, hoodDropMm: 55, crankLengthMm: 165 }),
      figures({ saddleHeightMm: 731, barWidthMm: 400 }),
    );
    expect(rows).toEqual([
      {
        ...{ field: 'saddleHeightMm', unit: 'mm', first: 740, second: 726, difference: -14 },
        ...{ now: 731, toChange: -5, withinError: false },
      },
      {
        ...{ field: 'hoodDropMm', unit: 'mm', first: 55, second: 55, difference: 0 },
        ...{ now: null, toChange: null, withinError: null },
      },
      {
        ...{ field: 'barWidthMm', unit: 'mm', first: null, second: null, difference: null },
        ...{ now: 400, toChange: null, withinError: null },
      },
      {
        ...{ field: 'crankLengthMm', unit: 'mm', first: null, second: 165, difference: null },
        ...{ now: null, toChange: null, withinError: null },
      },
    ]);
  });

  it('has nothing to change of a second that was not measured', () => {
    const [row] = positionsSideBySide(figures({ barWidthMm: 400 }), figures({ barWidthMm: 380 }), null);
    expect(row).toMatchObject({ difference: -20, now: null, toChange: null });
  });
});
