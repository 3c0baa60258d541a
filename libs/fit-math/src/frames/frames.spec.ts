import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  barClampCentre,
  contactPoints,
  saddleChangeForCleat,
  secondBike,
  transferPosition,
  type Build,
  type ContactPoints,
  type FootAndCrankChange,
  type FrameGeometry,
  type PartRanges,
  type RiderOnBike,
} from '../index.js';

const frame: FrameGeometry = {
  stackMm: 560,
  reachMm: 385,
  headTubeAngleDeg: 73,
  seatTubeAngleDeg: 73.5,
  seatTubeAxisAheadMm: 0,
  clampAlongTubeMm: { least: 600, greatest: 760 },
  topCapMm: 8,
};
const parts: PartRanges = {
  stems: [70, 80, 90, 100, 110, 120, 130].flatMap((lengthMm) =>
    [-17, -6, 6].map((angleDeg) => ({
      id: `${lengthMm} mm ${angleDeg}°`,
      lengthMm,
      angleDeg,
      clampHeightMm: 40,
    })),
  ),
  spacersMm: [0, 5, 10, 15, 20, 25, 30],
  bars: [70, 75, 80].flatMap((reachMm) =>
    [120, 128].map((dropMm) => ({ id: `${reachMm}/${dropMm}`, reachMm, riseMm: 0, dropMm })),
  ),
  seatposts: [0, 15, 25].map((setbackMm) => ({ id: `${setbackMm} mm back`, setbackMm })),
  saddle: {
    lengthMm: 270,
    tipTo80MmWidthMm: 140,
    railToTopMm: 45,
    widthPointBehindRailMiddleMm: 15,
    railTravelMm: 18,
  },
};

const oneOf = <T>(values: readonly T[]) => fc.constantFrom(...values);
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyFrame = fc.record({
  stackMm: number(480, 640),
  reachMm: number(350, 430),
  headTubeAngleDeg: number(68, 75),
  seatTubeAngleDeg: number(70, 80),
  seatTubeAxisAheadMm: number(-30, 60),
  clampAlongTubeMm: fc.constant({ least: 550, greatest: 800 }),
  topCapMm: number(0, 20),
});
const anyBuild = fc.record({
  stem: oneOf(parts.stems),
  spacersMm: oneOf(parts.spacersMm),
  bar: oneOf(parts.bars),
  seatpost: oneOf(parts.seatposts),
  saddle: fc.constant(parts.saddle),
  clampAlongTubeMm: number(560, 790),
  saddleForwardMm: number(-18, 18),
}) satisfies fc.Arbitrary<Build>;

const search = { frame, parts, toleranceMm: 3, listed: 5 };

describe('transferPosition', () => {
  it('brings a position back to its own bike with nothing left over', () => {
    fc.assert(
      fc.property(anyFrame, anyBuild, (someFrame, build) => {
        const wanted = contactPoints(someFrame, build);
        const { builds, fits } = transferPosition({ ...search, frame: someFrame, wanted, listed: 1 });
        expect(fits).toBe(true);
        for (const leftoverMm of Object.values(builds[0]?.leftover ?? { none: Number.NaN })) {
          expect(leftoverMm).toBeCloseTo(0, 9);
        }
        expect(builds[0]?.stemId).toBe(build.stem.id);
        expect(builds[0]?.spacersMm).toBe(build.spacersMm);
        expect(builds[0]?.barId).toBe(build.bar.id);
      }),
    );
  });

  it('answers with builds that do stand where it says', () => {
    fc.assert(
      fc.property(anyFrame, anyBuild, (wantedFrame, build) => {
        const wanted = contactPoints(wantedFrame, build);
        for (const found of transferPosition({ ...search, wanted }).builds) {
          const built = contactPoints(frame, {
            ...build,
            stem: byId(parts.stems, found.stemId),
            bar: byId(parts.bars, found.barId),
            seatpost: byId(parts.seatposts, found.seatpostId),
            spacersMm: found.spacersMm,
            clampAlongTubeMm: found.clampAlongTubeMm,
            saddleForwardMm: found.saddleForwardMm,
          });
          expect(built.saddle.xMm).toBeCloseTo(found.contactPoints.saddle.xMm, 9);
          expect(built.upperGrip).toEqual(found.contactPoints.upperGrip);
          expect(built.saddle.yMm - wanted.saddle.yMm).toBeCloseTo(found.leftover.saddleYMm, 9);
          expect(built.upperGrip.xMm - wanted.upperGrip.xMm).toBeCloseTo(found.leftover.upperGripXMm, 9);
          expect(found.fits).toBe(found.greatestLeftoverMm <= 3);
        }
      }),
    );
  });

  it('misses nothing that a bare search over every build would find', () => {
    fc.assert(
      fc.property(anyFrame, anyBuild, (wantedFrame, build) => {
        const wanted = contactPoints(wantedFrame, build);
        const found = transferPosition({ ...search, wanted, listed: 100 });
        expect(found.buildsSearched).toBe(21 * 7 * 6 * 3);
        const misses = found.builds.map(({ greatestLeftoverMm }) => greatestLeftoverMm);
        expect(misses).toEqual([...misses].sort((a, b) => a - b));
        const front = bareLeastFrontMiss(wanted);
        expect(misses[0]).toBeGreaterThanOrEqual(front - 1e-9);
        // Where the saddle is met, the nearest build is the nearest front end.
        fc.pre(Math.abs(found.builds[0]?.leftover.saddleXMm ?? 1) < 1e-9);
        fc.pre(Math.abs(found.builds[0]?.leftover.saddleYMm ?? 1) < 1e-9);
        expect(misses[0]).toBeCloseTo(front, 9);
      }),
    );
  });

  it('says plainly when none fits, and what is left over', () => {
    const wanted: ContactPoints = {
      saddle: { xMm: -200, yMm: 700 },
      upperGrip: { xMm: 560, yMm: 900 },
      lowerGripYMm: null,
    };
    const { fits, builds, cautions } = transferPosition({ ...search, wanted });
    expect(fits).toBe(false);
    expect(cautions.map(({ code }) => code)).toEqual(['no-build-fits']);
    expect(builds[0]?.leftover.upperGripYMm).toBeLessThan(-200);
    expect(builds[0]?.leftover.lowerGripYMm).toBeNull();
  });

  it('passes over bars without a lower grip when one is wanted', () => {
    const flat = { id: 'flat', reachMm: 80, riseMm: 0, dropMm: null };
    const wanted = contactPoints(frame, { ...aBuild(), bar: { ...flat, dropMm: 125 } });
    const mixed = { ...parts, bars: [flat, ...parts.bars] };
    expect(
      transferPosition({ ...search, parts: mixed, wanted }).builds.map(({ barId }) => barId),
    ).not.toContain('flat');
    expect(() => transferPosition({ ...search, parts: { ...parts, bars: [flat] }, wanted })).toThrow(
      expect.objectContaining({ code: 'target.not-reachable', field: 'parts.bars' }),
    );
  });

  it.each([
    ['parts.stems.length', { parts: { ...parts, stems: [] } }],
    ['parts.stems.1.angleDeg', { parts: { ...parts, stems: [stem(), { ...stem(), angleDeg: 90 }] } }],
    ['frame.headTubeAngleDeg', { frame: { ...frame, headTubeAngleDeg: Number.NaN } }],
    [
      'frame.clampAlongTubeMm.greatest',
      { frame: { ...frame, clampAlongTubeMm: { least: 700, greatest: 600 } } },
    ],
    ['toleranceMm', { toleranceMm: 0 }],
  ])('names an impossible %s', (field, wrong) => {
    const wanted = contactPoints(frame, aBuild());
    expect(() => transferPosition({ ...search, wanted, ...wrong })).toThrow(
      expect.objectContaining({ name: 'FitMathError', field }),
    );
  });
});

describe('secondBike', () => {
  const rider: RiderOnBike = {
    leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
    footPitch: { kind: 'constant', pitchDeg: 20 },
    minimumKneeFlexionDeg: 35,
    seatTubeAngleDeg: 73,
  };
  const onFirst = contactPoints(frame, aBuild());

  it('asks for the same position when nothing changes, and finds the same build', () => {
    const { wanted, transfer } = secondBike({ ...search, contactPoints: onFirst, rider, change: {} });
    expect(wanted).toEqual(onFirst);
    expect(transfer.builds[0]?.greatestLeftoverMm).toBeCloseTo(0, 9);
  });

  it('lowers saddle and grips together for a rearward cleat', () => {
    const second = secondBike({ ...search, contactPoints: onFirst, rider, change: { cleatBackMm: 36 } });
    expect(second.saddleChangeMm).toEqual(saddleChangeForCleat(rider, 36));
    const downMm = onFirst.saddle.yMm - second.wanted.saddle.yMm;
    expect(downMm).toBeCloseTo(20.5 * Math.sin((73 * Math.PI) / 180), 1);
    expect(onFirst.upperGrip.yMm - second.wanted.upperGrip.yMm).toBeCloseTo(downMm, 9);
    expect((onFirst.lowerGripYMm ?? 0) - (second.wanted.lowerGripYMm ?? 0)).toBeCloseTo(downMm, 9);
    expect(second.wanted.upperGrip.xMm - second.wanted.saddle.xMm).toBeCloseTo(
      onFirst.upperGrip.xMm - onFirst.saddle.xMm,
      9,
    );
    expect(second.cautions.map(({ code }) => code)).toContain('foot-pitch-drifts');
  });

  it('lowers the saddle for a longer crank by about as much, and raises it for a higher ankle', () => {
    const saddle = (change: FootAndCrankChange): number =>
      secondBike({ ...search, contactPoints: onFirst, rider, change }).saddleChangeMm.value;
    expect(saddle({ crankLongerMm: 5 })).toBeLessThan(-4);
    expect(saddle({ crankLongerMm: 5 })).toBeGreaterThan(-5.2);
    expect(saddle({ ankleHigherMm: 3 })).toBeGreaterThan(2.4);
  });
});

describe('barClampCentre', () => {
  it('rises with spacers along the steerer and with the stem’s angle', () => {
    fc.assert(
      fc.property(number(68, 75), number(0, 40), number(-17, 17), (headTubeAngleDeg, spacersMm, angleDeg) => {
        const at = (along: number, angle: number) =>
          barClampCentre({ ...frame, headTubeAngleDeg }, along, { lengthMm: 100, angleDeg: angle });
        const base = at(spacersMm, angleDeg);
        const raised = at(spacersMm + 10, angleDeg);
        expect(Math.hypot(raised.xMm - base.xMm, raised.yMm - base.yMm)).toBeCloseTo(10, 9);
        expect(raised.xMm).toBeLessThan(base.xMm);
        expect(at(spacersMm, angleDeg + 1).yMm).toBeGreaterThan(base.yMm);
      }),
    );
  });
});

function byId<T extends { readonly id: string }>(all: readonly T[], id: string): T {
  const found = all.find((one) => one.id === id);
  if (!found) throw new Error(`no part ${id}`);
  return found;
}

function stem() {
  return byId(parts.stems, '100 mm -6°');
}

function aBuild(): Build {
  return {
    stem: stem(),
    spacersMm: 20,
    bar: byId(parts.bars, '75/128'),
    seatpost: byId(parts.seatposts, '15 mm back'),
    saddle: parts.saddle,
    clampAlongTubeMm: 690,
    saddleForwardMm: 3,
  };
}

/** The front end's least greatest leftover, by the worked formula and nothing of the library. */
function bareLeastFrontMiss(wanted: ContactPoints): number {
  let least = Number.POSITIVE_INFINITY;
  const steerer = (frame.headTubeAngleDeg * Math.PI) / 180;
  for (const { lengthMm, angleDeg } of parts.stems) {
    for (const spacersMm of parts.spacersMm) {
      for (const { reachMm, dropMm } of parts.bars) {
        const along = 8 + spacersMm + 20;
        const rise = Math.PI / 2 - steerer + (angleDeg * Math.PI) / 180;
        const x = 385 - along * Math.cos(steerer) + lengthMm * Math.cos(rise);
        const y = 560 + along * Math.sin(steerer) + lengthMm * Math.sin(rise);
        const miss = Math.max(
          Math.abs(x + reachMm - wanted.upperGrip.xMm),
          Math.abs(y - wanted.upperGrip.yMm),
          wanted.lowerGripYMm === null ? 0 : Math.abs(y - (dropMm ?? 0) - wanted.lowerGripYMm),
        );
        least = Math.min(least, miss);
      }
    }
  }
  return least;
}
