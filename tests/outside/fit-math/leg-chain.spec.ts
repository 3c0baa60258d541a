import { describe, expect, it } from '@jest/globals';
import {
  crankChange,
  hipForKneeFlexion,
  jointAngles,
  kneeTargetHeights,
  revolution,
  segmentsFromStature,
  straightest,
  type FootPitch,
  type JointAngles,
  type Leg,
  type Point,
} from '@studio/fit-math';

/** The mean man of ANSUR II, Gordon et al. 2014, NATICK/TR-15/007, landmark segments; foot and crank usual ones. */
const meanMan: Leg = {
  thighMm: 409,
  shankMm: 418.7,
  footLeverMm: 135,
  ankleAboveSpindleMm: 115,
  crankLengthMm: 172.5,
};
const tube = { kind: 'along-seat-tube', seatTubeAngleDeg: 73 } as const;
const constant = (pitchDeg: number): FootPitch => ({ kind: 'constant', pitchDeg });

describe('two-link geometry, ankle fixed, thigh 409.0, shank 418.7 mm (derived from the law of cosines apart from this library)', () => {
  it.each([
    [25, 1.56, 6.4],
    [30, 1.87, 5.4],
    [35, 2.17, 4.6],
    [40, 2.47, 4.1],
  ])('at %d°: %d mm a degree, %d° a centimetre', (flexionDeg, mmPerDegree, degreesPerCm) => {
    // Straight above the ankle of a level crank, the hip moves along the line between them.
    const ankle = { xMm: meanMan.crankLengthMm - meanMan.footLeverMm, yMm: meanMan.ankleAboveSpindleMm };
    const distance = Math.sqrt(
      409 ** 2 + 418.7 ** 2 + 2 * 409 * 418.7 * Math.cos((flexionDeg * Math.PI) / 180),
    );
    const kneeAt = (away: number): number =>
      jointAngles(meanMan, constant(0), { xMm: ankle.xMm, yMm: ankle.yMm + away }, 90).kneeFlexionDeg;
    expect(kneeAt(distance)).toBeCloseTo(flexionDeg, 9);
    const perMm = (kneeAt(distance - 0.5) - kneeAt(distance + 0.5)) / 1;
    expect(Math.abs(1 / perMm - mmPerDegree)).toBeLessThan(0.006);
    expect(Math.abs(10 * perMm - degreesPerCm)).toBeLessThan(0.06);
  });
});

describe('joint ranges over a turn', () => {
  /** Toe down more on the way up than on the way down, by what gives the ankle about its published range. */
  const ankling: FootPitch = { kind: 'clock', readingsDeg: [15, 0, 15, 30] };
  const rangesOf = (leg: Leg, leastKneeDeg: number): Record<'knee' | 'hip' | 'ankle', [number, number]> => {
    const { hip } = hipForKneeFlexion(leg, ankling, leastKneeDeg, tube);
    const turn = revolution(leg, ankling, hip);
    const range = (of: (angles: JointAngles) => number): [number, number] => [
      Math.min(...turn.map(of)),
      Math.max(...turn.map(of)),
    ];
    return {
      knee: range(({ kneeFlexionDeg }) => kneeFlexionDeg),
      hip: range(({ thighElevationDeg }) => thighElevationDeg),
      ankle: range(({ ankleAngleDeg }) => ankleAngleDeg),
    };
  };
  const width = ([least, most]: [number, number]): number => most - least;

  it('Ericson, Nisell & Németh 1988, JOSPT 9:273–278: knee 46–112°, hip over 38°, ankle over 24°, each ±5° as a plausible band', () => {
    // Six subjects of unknown size; 1.80 m taken, segments by Drillis & Contini.
    const { thighMm, shankMm } = segmentsFromStature({
      statureMm: 1800,
      table: 'drillis-contini',
      underFootMm: 42,
    });
    const leg = { ...meanMan, thighMm: thighMm.value, shankMm: shankMm.value, crankLengthMm: 170 };
    const found = rangesOf(leg, 46);
    expect(found.knee[0]).toBeCloseTo(46, 1);
    expect(Math.abs(found.knee[1] - 112)).toBeLessThanOrEqual(5);
    expect(Math.abs(width(found.hip) - 38)).toBeLessThanOrEqual(5);
    expect(Math.abs(width(found.ankle) - 24)).toBeLessThanOrEqual(5);
  });

  it.each([35, 40, 46])(
    'BMC Musculoskelet Disord 2021;22:1044, in space: knee over 75.2°, hip 43.9°, ankle 26.9°, each ±6°, straightest at %d°',
    (leastKneeDeg) => {
      const found = rangesOf({ ...meanMan, crankLengthMm: 170 }, leastKneeDeg);
      expect(Math.abs(width(found.knee) - 75.2)).toBeLessThanOrEqual(6);
      expect(Math.abs(width(found.hip) - 43.9)).toBeLessThanOrEqual(6);
      expect(Math.abs(width(found.ankle) - 26.9)).toBeLessThanOrEqual(6);
    },
  );

  it('Farrell et al. 2003, The Knee 10:103–109: straightest at about 170° of the crank, before the bottom, ±8°', () => {
    for (const pitchDeg of [0, 10, 20]) {
      const { hip } = hipForKneeFlexion(meanMan, constant(pitchDeg), 33, tube);
      const { crankDeg } = straightest(meanMan, constant(pitchDeg), hip);
      expect(Math.abs(crankDeg - 170)).toBeLessThan(8);
      expect(crankDeg).toBeLessThan(180);
    }
  });
});

describe('Ferrer-Roca et al. 2014, J Strength Cond Res 28(3):784–791: −2 % to +2 % of saddle height', () => {
  // Of an assumed 0.92 m from the spindle: 3.7 cm. Measured at the bottom: knee 7°, ankle 8°, hip 4° straighter.
  const changeMm = 0.04 * 920;
  const at = (pitchDeg: number, mm: number): JointAngles => {
    const { hip, hipDistanceMm } = hipForKneeFlexion(meanMan, constant(pitchDeg), 35, tube);
    const share = 1 + mm / hipDistanceMm;
    return jointAngles(meanMan, constant(pitchDeg), { xMm: hip.xMm * share, yMm: hip.yMm * share }, 180);
  };

  it.each([0, 10, 20])(
    'moves knee, hip and ankle the measured way, the knee by more than riders, whose feet give: %d° of foot pitch',
    (pitchDeg) => {
      const low = at(pitchDeg, -changeMm / 2);
      const high = at(pitchDeg, changeMm / 2);
      const kneeDeg = low.kneeFlexionDeg - high.kneeFlexionDeg;
      expect(kneeDeg).toBeGreaterThan(7);
      expect(kneeDeg).toBeLessThan(3 * 7);
      expect(low.thighElevationDeg - high.thighElevationDeg).toBeGreaterThan(4);
      expect(high.ankleAngleDeg).toBeGreaterThan(low.ankleAngleDeg);
      // 1.75° for one per cent measured; the geometry asks for 4 to 5° a centimetre.
      expect(kneeDeg / (changeMm / 10)).toBeGreaterThan(4);
      expect(kneeDeg / (changeMm / 10)).toBeLessThan(5);
    },
  );

  it('cautions that the ankle takes up about half wherever a height comes from a knee', () => {
    const { cautions } = kneeTargetHeights({
      leg: meanMan,
      footPitch: constant(10),
      seatTubeAngleDeg: 73,
      saddleHeightMm: 740,
      readings: { staticBottomDeg: 30 },
      filmedIn: 'plane',
    });
    expect(cautions.map(({ code }) => code)).toContain('ankle-takes-up');
  });
});

describe('Bini & Hume 2016, Human Movement 17(1): rider stopped less riding, 30 riders', () => {
  // At 6 o'clock knee −8.2 ± 5°, ankle −8.2 ± 5.3°, hip +4.9 ± 3°; at 3 o'clock all below 1.4°.
  const hipOf = (pitchDeg: number): Point => hipForKneeFlexion(meanMan, constant(pitchDeg), 36, tube).hip;
  const changeAtBottom = (ridingDeg: number, stoppedDeg: number): JointAngles => {
    const riding = jointAngles(meanMan, constant(ridingDeg), hipOf(ridingDeg), 180);
    const stopped = jointAngles(meanMan, constant(stoppedDeg), hipOf(ridingDeg), 180);
    return {
      kneeFlexionDeg: stopped.kneeFlexionDeg - riding.kneeFlexionDeg,
      thighElevationDeg: stopped.thighElevationDeg - riding.thighElevationDeg,
      ankleAngleDeg: stopped.ankleAngleDeg - riding.ankleAngleDeg,
    };
  };

  it.each([10, 15, 20])(
    'a foot that lets its heel down at a stop, by what straightens the knee 8.2°, moves ankle and hip as measured, each within its SD: riding at %d°',
    (ridingDeg) => {
      let least = ridingDeg - 30;
      let most = ridingDeg;
      for (let i = 0; i < 60; i += 1) {
        const middle = (least + most) / 2;
        if (changeAtBottom(ridingDeg, middle).kneeFlexionDeg < -8.2) least = middle;
        else most = middle;
      }
      const change = changeAtBottom(ridingDeg, most);
      expect(change.kneeFlexionDeg).toBeCloseTo(-8.2, 6);
      expect(Math.abs(change.ankleAngleDeg - -8.2)).toBeLessThan(5.3);
      // A thigh that sinks opens the hip.
      expect(Math.abs(-change.thighElevationDeg - 4.9)).toBeLessThan(3);
    },
  );
});

describe('Ferrer-Roca et al. 2017, J Sports Sci, doi 10.1080/02640414.2016.1215490: ±5 mm of crank', () => {
  it('bends knee and hip more on the longer one, the way and order of the measured 1.8–3.4°', () => {
    const rider = {
      leg: { ...meanMan, crankLengthMm: 167.5 },
      footPitch: constant(10),
      minimumKneeFlexionDeg: 35,
      seatTubeAngleDeg: 73,
    };
    const { greatestKneeFlexionChangeDeg, highestThighChangeDeg } = crankChange(rider, 177.5);
    expect(greatestKneeFlexionChangeDeg).toBeGreaterThan(1.8);
    expect(greatestKneeFlexionChangeDeg).toBeLessThan(2 * 3.4);
    expect(highestThighChangeDeg).toBeGreaterThan(1);
    expect(highestThighChangeDeg).toBeLessThan(2 * 3.4);
  });
});
