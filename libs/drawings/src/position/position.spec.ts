import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { expectSound } from '../testing/expect-sound.js';
import { feetFromBelow, type FeetWords } from './feet-from-below.js';
import { kneeCurve } from './knee-curve.js';
import { sideView, type SidePosture, type SideViewWords } from './side-view.js';
import { spread, toScale } from './to-scale.js';

const about = { title: 'Title', subtitle: 'Road bike' };
const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const point = (x: [number, number], y: [number, number]) =>
  fc.record({ xMm: within(...x), yMm: within(...y) });

const posture: fc.Arbitrary<SidePosture> = fc.record({
  saddleTop: point([-350, -60], [300, 1000]),
  saddleTip: point([-200, 100], [300, 1000]),
  barCentre: point([150, 800], [200, 1100]),
  hoods: fc.option(point([200, 1000], [200, 1100])),
  leg: fc.option(
    fc.record({
      hip: point([-400, 0], [500, 1100]),
      knee: point([-100, 300], [200, 600]),
      ankle: point([-300, 100], [-100, 200]),
      spindle: point([-10, 60], [-220, -100]),
      heel: point([-300, -100], [-250, 0]),
      toe: point([50, 250], [-300, -100]),
    }),
  ),
  upperBody: fc.option(
    fc.record({
      shoulder: point([0, 500], [900, 1500]),
      elbow: point([200, 800], [600, 1300]),
      hand: point([300, 1000], [300, 1100]),
    }),
  ),
});

const sideWords: SideViewWords = {
  found: 'as found',
  left: 'as left',
  points: {
    bottomBracket: 'bottom bracket',
    saddleTop: 'saddle top',
    saddleTip: 'saddle tip',
    barCentre: 'bars',
    hoods: 'hoods',
    hip: 'hip',
    knee: 'knee',
    ankle: 'ankle',
    spindle: 'spindle',
    heel: 'heel',
    toe: 'toe',
    shoulder: 'shoulder',
    elbow: 'elbow',
  },
  notes: ['To scale, from the bottom bracket; saddle and bars as measured.', 'Trunk and arms: shape only.'],
};

const feetWords: FeetWords = {
  sides: { left: 'left foot', right: 'right foot' },
  ...{ mth1: 'first head', mth5: 'fifth head', midfoot: 'midfoot', found: 'as found', left: 'as left' },
  notes: [
    'To scale along the foot, mm from the heel end of the shoe; widths are shape only. Grey: reach of the slots.',
  ],
};

const cleat = fc.option(fc.record({ fromHeelMm: within(80, 200), rotationDeg: fc.option(within(-30, 30)) }));
const foot = (side: 'left' | 'right') =>
  fc.record({
    side: fc.constant(side),
    shoeLengthMm: within(200, 400),
    midfootFromHeelMm: within(100, 200),
    mth1FromHeelMm: fc.option(within(80, 200)),
    mth5FromHeelMm: fc.option(within(80, 200)),
    slotsFromHeelMm: fc.constant({ rear: 197, front: 212 }),
    found: cleat,
    left: cleat,
  });

const turn = fc
  .record({ middle: within(55, 90), by: within(5, 50), at: within(140, 200) })
  .map(({ middle, by, at }) => ({
    samples: Array.from({ length: 60 }, (_, i) => ({
      crankDeg: 6 * i,
      kneeFlexionDeg: middle + by * Math.cos((Math.PI * 6 * i) / 180),
    })),
    straightest: { crankDeg: at, kneeFlexionDeg: middle - by },
  }));

describe('the drawings of a position are sound, whatever the numbers', () => {
  it('bike and rider', () => {
    fc.assert(
      fc.property(posture, fc.option(posture), (left, found) => {
        expectSound(sideView({ ...about, found, left, words: sideWords }));
      }),
    );
  });

  it('feet', () => {
    fc.assert(
      fc.property(foot('left'), foot('right'), (left, right) => {
        expectSound(feetFromBelow({ ...about, feet: [right, left], words: feetWords }));
        expectSound(feetFromBelow({ ...about, feet: [left], words: feetWords }));
      }),
    );
  });

  it('knee', () => {
    const words = {
      ...{ found: 'as found', left: 'as left', straightest: 'straightest' },
      ...{ crank: 'crank, degrees from top', knee: 'knee flexion, degrees' },
    };
    fc.assert(
      fc.property(turn, fc.option(turn), (left, found) => {
        expectSound(kneeCurve({ ...about, found, left, words }));
      }),
    );
  });
});

describe('to scale', () => {
  it('has one scale both ways, and holds all points within the box', () => {
    const points = fc.array(point([-500, 900], [-300, 1500]), { minLength: 2 });
    fc.assert(
      fc.property(points, (all) => {
        const box = { left: 50, top: 40, right: 600, bottom: 500 };
        const { at, pxPerMm } = toScale([...all, { xMm: 0, yMm: 0 }, { xMm: 10, yMm: 10 }], box);
        for (const one of all) {
          const { x, y } = at(one);
          expect(x).toBeGreaterThan(box.left - 1e-6);
          expect(x).toBeLessThan(box.right + 1e-6);
          expect(y).toBeGreaterThan(box.top - 1e-6);
          expect(y).toBeLessThan(box.bottom + 1e-6);
          const origin = at({ xMm: 0, yMm: 0 });
          expect(x - origin.x).toBeCloseTo(pxPerMm * one.xMm, 6);
          expect(origin.y - y).toBeCloseTo(pxPerMm * one.yMm, 6);
        }
      }),
    );
  });

  it('keeps the order of labels it moves apart, and moves none that need not be', () => {
    fc.assert(
      fc.property(fc.array(within(0, 400), { maxLength: 8 }), (places) => {
        const moved = spread(places, 16);
        const order = places.map((_, i) => i).sort((one, other) => (places[one] ?? 0) - (places[other] ?? 0));
        order.slice(1).forEach((index, i) => {
          const before = moved[order[i] ?? 0] ?? 0;
          expect((moved[index] ?? 0) - before).toBeGreaterThanOrEqual(16 - 1e-9);
        });
      }),
    );
    expect(spread([100, 200, 300], 16)).toEqual([100, 200, 300]);
    expect(spread([200, 200], 16)).toEqual([192, 208]);
  });
});
