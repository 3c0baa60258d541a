import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  compareSaddleHeights,
  FitMathError,
  hipForKneeFlexion,
  jointAngles,
  kneeFlexionTargets,
  kneeTargetHeights,
  readsStraighterInPlaneDeg,
  type FootPitch,
  type KneeTargetRow,
  type RiderNow,
} from '../index.js';

const rider: RiderNow = {
  leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
  footPitch: { kind: 'constant', pitchDeg: 15 },
  seatTubeAngleDeg: 73,
  saddleHeightMm: 740,
  readings: { staticBottomDeg: 30, dynamicBottomDeg: 38, dynamicStraightestDeg: 36 },
  filmedIn: 'plane',
};
const rowOf = (id: string, change: Partial<RiderNow> = {}): KneeTargetRow => {
  const found = kneeTargetHeights({ ...rider, ...change }).rows.find(({ target }) => target === id);
  if (!found) throw new Error(`no row ${id}`);
  return found;
};
/** Straight as a leg can be where the hip is beyond its reach. */
function kneeAtBottomDeg(footPitch: FootPitch, alongTubeMm: number): number {
  const tube = (73 * Math.PI) / 180;
  const hip = { xMm: -alongTubeMm * Math.cos(tube), yMm: alongTubeMm * Math.sin(tube) };
  try {
    return jointAngles(rider.leg, footPitch, hip, 180).kneeFlexionDeg;
  } catch (error) {
    if (error instanceof FitMathError && error.code === 'leg.cannot-reach') return 0;
    throw error;
  }
}

describe('kneeTargetHeights', () => {
  it('brings the straightest knee to the band’s ends, by the chain solved for both', () => {
    const { lowestMm, highestMm } = rowOf('riding-straightest-30-40');
    const hip = (flexion: number): number =>
      hipForKneeFlexion(rider.leg, rider.footPitch, flexion, {
        kind: 'along-seat-tube',
        seatTubeAngleDeg: 73,
      }).hipDistanceMm;
    expect(lowestMm.value).toBeCloseTo(740 + hip(40) - hip(36), 9);
    expect(highestMm.value).toBeCloseTo(740 + hip(30) - hip(36), 9);
  });

  it('brings the knee at the bottom to the band’s ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 50, noNaN: true }),
        fc.double({ min: -10, max: 35, noNaN: true }),
        (read, pitchDeg) => {
          const footPitch = { kind: 'constant', pitchDeg } as const;
          const { lowestMm, highestMm } = rowOf('static-25-35', {
            footPitch,
            readings: { staticBottomDeg: read },
          });
          // Wherever the saddle is now, the hip has the read flexion at the bottom: find it by bisection.
          let low = 500;
          let high = 1000;
          for (let i = 0; i < 60; i += 1) {
            const middle = (low + high) / 2;
            if (kneeAtBottomDeg(footPitch, middle) > read) low = middle;
            else high = middle;
          }
          for (const [height, flexion] of [
            [lowestMm.value, 35],
            [highestMm.value, 25],
          ] as const) {
            expect(kneeAtBottomDeg(footPitch, low + height - rider.saddleHeightMm)).toBeCloseTo(flexion, 6);
          }
        },
      ),
      { numRuns: 30 },
    );
  });

  it('holds each target to its own kind of reading and converts none', () => {
    const { rows, leftOut } = kneeTargetHeights({ ...rider, readings: { dynamicBottomDeg: 38 } });
    expect(rows.map(({ reading }) => reading)).toEqual(['dynamicBottomDeg', 'dynamicBottomDeg']);
    expect(leftOut).toEqual([
      { target: 'static-25-35', missing: 'staticBottomDeg' },
      { target: 'riding-straightest-30-40', missing: 'dynamicStraightestDeg' },
    ]);
  });

  it('says whether the knee is within the band now', () => {
    expect(rowOf('riding-easy-33-43').withinNow).toBe(true);
    expect(rowOf('riding-easy-33-43', { readings: { dynamicBottomDeg: 45 } }).withinNow).toBe(false);
    const { lowestMm, highestMm } = rowOf('riding-easy-33-43');
    expect(lowestMm.value).toBeLessThan(740);
    expect(highestMm.value).toBeGreaterThan(740);
  });

  it('takes readings made in space to one plane, those of the goniometer not, and says so', () => {
    const { rows, cautions } = kneeTargetHeights({ ...rider, filmedIn: 'space' });
    expect(rows.map(({ readingUsedDeg }) => readingUsedDeg)).toEqual([
      30,
      38 - readsStraighterInPlaneDeg,
      38 - readsStraighterInPlaneDeg,
      36 - readsStraighterInPlaneDeg,
    ]);
    expect(cautions.map(({ code }) => code)).toContain('taken-to-one-plane');
    expect(kneeTargetHeights(rider).cautions.map(({ code }) => code)).not.toContain('taken-to-one-plane');
  });

  it('is as sure as the reading: the error of the knee is most of it', () => {
    const { lowestMm } = rowOf('riding-straightest-30-40');
    // About 4.4 mm to the degree at this flexion (two-link geometry), 3° of reading error.
    expect(lowestMm.sd).toBeGreaterThan(4);
    expect(lowestMm.sd).toBeLessThan(12);
  });

  it.each([
    ['readings', { readings: {} }],
    ['readings.staticBottomDeg', { readings: { staticBottomDeg: 300 } }],
    ['saddleHeightMm', { saddleHeightMm: 74 }],
    ['seatTubeAngleDeg', { seatTubeAngleDeg: Number.NaN }],
    ['thighMm', { leg: { ...rider.leg, thighMm: 43 } }],
  ])('names an impossible %s', (field, change) => {
    expect(() => kneeTargetHeights({ ...rider, ...change })).toThrow(expect.objectContaining({ field }));
  });

  it('names a source and a band in order for every target', () => {
    for (const { source, flexionDeg } of kneeFlexionTargets) {
      expect(source).not.toBe('');
      expect(flexionDeg[0]).toBeLessThan(flexionDeg[1]);
    }
  });
});

describe('compareSaddleHeights with the knee read', () => {
  it('stands the bands beside the rules, from the same datum', () => {
    const { leg, ...rest } = rider;
    const { crankLengthMm, ...segments } = leg;
    const compared = compareSaddleHeights({ inseamMm: 850 }, crankLengthMm, { ...rest, leg: segments });
    expect(compared.kneeTargets).toEqual(kneeTargetHeights(rider));
    expect(compareSaddleHeights({ inseamMm: 850 }, crankLengthMm).kneeTargets).toBeNull();
  });
});
