import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  comparePositions,
  FitMathError,
  measurementKind,
  positionError,
  positionFields,
  type PositionFieldId,
  type PositionFigures,
} from '../index.js';

const figures = (
  values: PositionFigures['values'],
  methods: PositionFigures['methods'] = {},
): PositionFigures => ({ values, methods });

describe('comparePositions', () => {
  it('tells a change from what measuring alone gives', () => {
    // Two careful readings of 1 mm each: 1.96 × √2 mm is 2.77 mm.
    const by = (mm: number) =>
      comparePositions(figures({ saddleHeightMm: 740 }), figures({ saddleHeightMm: 740 + mm }))[0];
    expect(by(2.7)).toMatchObject({ field: 'saddleHeightMm', unit: 'mm', from: 740, withinError: true });
    expect(by(2.8)).toMatchObject({ to: 742.8, withinError: false });
    expect(by(-15)?.change).toBe(-15);
  });

  it('errs more where one of the two was estimated', () => {
    const [estimated] = comparePositions(
      figures({ saddleHeightMm: 740 }, { saddleHeightMm: 'estimate' }),
      figures({ saddleHeightMm: 735 }, { saddleHeightMm: 'tape' }),
    );
    expect(estimated).toMatchObject({ sd: Math.hypot(3, 1), withinError: true });
  });

  it('says what was measured only once, and leaves out what never was', () => {
    expect(comparePositions(figures({ saddleTiltDeg: -1, barWidthMm: null }), figures({}))).toEqual([
      { field: 'saddleTiltDeg', unit: 'deg', from: -1, to: null, change: null, sd: null, withinError: null },
    ]);
  });

  it('refuses what cannot be, by name', () => {
    const impossible = () => comparePositions(figures({}), figures({ saddleHeightMm: 74 }));
    expect(impossible).toThrow(FitMathError);
    expect(impossible).toThrow(/^to\.saddleHeightMm: /);
  });

  it('turns its sign with the two, and nothing else', () => {
    const figure = fc.record({
      saddleHeightMm: fc.option(fc.double({ min: 300, max: 1100, noNaN: true })),
      cleatRotationLeftDeg: fc.option(fc.double({ min: -30, max: 30, noNaN: true })),
    });
    fc.assert(
      fc.property(figure, figure, (one, other) => {
        const there = comparePositions(figures(one), figures(other));
        const back = comparePositions(figures(other), figures(one));
        expect(
          back.map(({ change, withinError }) => [change === null ? null : 0 - change, withinError]),
        ).toEqual(there.map(({ change, withinError }) => [change === null ? null : change + 0, withinError]));
      }),
    );
  });
});

describe('positionFields', () => {
  it('has as many figures of the right foot as of the left', () => {
    const of = (side: string): PositionFieldId[] =>
      positionFields.map(({ id }) => id).filter((id) => id.includes(side));
    expect(of('Right')).toEqual(of('Left').map((id) => id.replace('Left', 'Right')));
    expect(of('Left')).toHaveLength(5);
  });

  it('errs behind the first metatarsal head by the joint and the cleat together', () => {
    expect(positionError('cleatBehindMth1LeftMm', 'calliper')).toBeCloseTo(
      Math.sqrt(
        measurementKind('mth1_from_heel').usualError ** 2 +
          measurementKind('cleat_from_heel').usualError ** 2,
      ),
      10,
    );
  });
});
