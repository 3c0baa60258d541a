import { describe, expect, it } from '@jest/globals';
import {
  FitMathError,
  saddleChange,
  secondBike,
  secondPosition,
  type RiderOnBike,
  type SecondPositionInput,
} from '../index.js';

const first = {
  saddleHeightMm: 740,
  saddleSetbackMm: 60,
  saddleSetbackAt80Mm: 200,
  barReachMm: 530,
  barDropMm: 60,
  hoodReachMm: 690,
  hoodDropMm: 55,
  saddleTiltDeg: -1,
  barTiltDeg: 4,
  cleatBehindMth1LeftMm: 5,
  cleatFromNoseLeftMm: 92,
  shimLeftMm: 3,
  crankLengthMm: 172.5,
};
const same: SecondPositionInput = {
  first,
  firstSeatTubeAngleDeg: 73,
  secondSeatTubeAngleDeg: 73,
  saddleChangeMm: 0,
  cleatBackMm: 0,
  crankLengthMm: 172.5,
  otherwise: { saddleForwardMm: 0, saddleUpMm: 0, gripsForwardMm: 0, gripsUpMm: 0 },
  saddleTipTo80MmLongerMm: 0,
  sameBars: true,
  sameShoes: true,
};
const radians = (deg: number): number => (deg * Math.PI) / 180;

/** From the bottom bracket, of figures as they are measured. */
function contacts(figures: ReturnType<typeof secondPosition>, seatTubeAngleDeg: number) {
  const value = (field: keyof typeof figures): number => figures[field] ?? Number.NaN;
  const yMm = value('saddleHeightMm') * Math.sin(radians(seatTubeAngleDeg));
  return {
    saddle: { xMm: -value('saddleSetbackAt80Mm'), yMm },
    upperGrip: {
      xMm: value('hoodReachMm') - value('saddleSetbackMm'),
      yMm: yMm - value('hoodDropMm'),
    },
  };
}

describe('secondPosition', () => {
  it('is the first, where nothing is other', () => {
    expect(secondPosition(same)).toEqual(first);
  });

  it('brings the contact points that the second bike is built to', () => {
    const rider: RiderOnBike = {
      leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
      footPitch: { kind: 'constant', pitchDeg: 20 },
      minimumKneeFlexionDeg: 35,
      seatTubeAngleDeg: 73,
    };
    const change = { cleatBackMm: 24, crankLongerMm: -7.5 };
    const { wanted } = secondBike({
      contactPoints: { ...contacts(first, 73), lowerGripYMm: null },
      rider,
      change,
      frame: {
        ...{ stackMm: 560, reachMm: 385, headTubeAngleDeg: 73, seatTubeAngleDeg: 76 },
        ...{ seatTubeAxisAheadMm: 0, clampAlongTubeMm: { least: 600, greatest: 760 }, topCapMm: 8 },
      },
      parts: {
        stems: [{ id: 'level', lengthMm: 100, angleDeg: -17, clampHeightMm: 40 }],
        spacersMm: [0],
        bars: [{ id: 'drop', reachMm: 80, riseMm: 0, dropMm: 125 }],
        seatposts: [{ id: 'set back', setbackMm: 20 }],
        saddle: {
          ...{ lengthMm: 270, tipTo80MmWidthMm: 140, railToTopMm: 45 },
          ...{ widthPointBehindRailMiddleMm: 15, railTravelMm: 18 },
        },
      },
      toleranceMm: 5,
      listed: 1,
    });
    const second = secondPosition({
      ...same,
      secondSeatTubeAngleDeg: 76,
      saddleChangeMm: saddleChange(rider, change).value,
      cleatBackMm: 24,
      crankLengthMm: 165,
    });
    const { saddle, upperGrip } = contacts(second, 76);
    expect(saddle.xMm).toBeCloseTo(wanted.saddle.xMm, 9);
    expect(saddle.yMm).toBeCloseTo(wanted.saddle.yMm, 9);
    expect(upperGrip.xMm).toBeCloseTo(wanted.upperGrip.xMm, 9);
    expect(upperGrip.yMm).toBeCloseTo(wanted.upperGrip.yMm, 9);
    expect(second).toMatchObject({ cleatBehindMth1LeftMm: 29, cleatFromNoseLeftMm: 116, crankLengthMm: 165 });
  });

  it('comes back to the first when all is undone', () => {
    const there: SecondPositionInput = {
      ...same,
      secondSeatTubeAngleDeg: 78,
      crankLengthMm: 165,
      saddleTipTo80MmLongerMm: -25,
      otherwise: { saddleForwardMm: 40, saddleUpMm: 8, gripsForwardMm: 60, gripsUpMm: -70 },
    };
    const back = secondPosition({
      ...same,
      first: secondPosition(there),
      firstSeatTubeAngleDeg: 78,
      saddleTipTo80MmLongerMm: 25,
      otherwise: { saddleForwardMm: -40, saddleUpMm: -8, gripsForwardMm: -60, gripsUpMm: 70 },
    });
    for (const [field, value] of Object.entries(first)) {
      expect(back[field as keyof typeof first]).toBeCloseTo(value, 9);
    }
  });

  it('says nothing of what other bars and other shoes hold otherwise', () => {
    const second = secondPosition({ ...same, sameBars: false, sameShoes: false });
    for (const field of ['barReachMm', 'barDropMm', 'barTiltDeg', 'cleatFromNoseLeftMm'] as const) {
      expect(second).not.toHaveProperty(field);
    }
    expect(second).toMatchObject({ hoodReachMm: 690, cleatBehindMth1LeftMm: 5, shimLeftMm: 3 });
  });

  it('refuses what cannot be, by name', () => {
    const leaning = () => secondPosition({ ...same, secondSeatTubeAngleDeg: 40 });
    expect(leaning).toThrow(FitMathError);
    expect(leaning).toThrow(/^secondSeatTubeAngleDeg: /);
  });
});
