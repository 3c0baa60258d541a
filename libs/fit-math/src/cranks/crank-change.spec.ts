import { describe, expect, it } from '@jest/globals';
import type { RiderOnBike } from '../cleats/saddle-change.js';
import { compareCrankLengths, crankChange } from './index.js';

const rider: RiderOnBike = {
  leg: {
    thighMm: 434,
    shankMm: 425,
    footLeverMm: 140,
    ankleAboveSpindleMm: 120,
    crankLengthMm: 172.5,
  },
  footPitch: { kind: 'constant', pitchDeg: 10 },
  minimumKneeFlexionDeg: 35,
  seatTubeAngleDeg: 73,
};

describe('crankChange', () => {
  it('raises the saddle by about what a shorter crank gives away at the bottom', () => {
    const { saddleChangeMm } = crankChange(rider, 165);
    expect(Math.abs(saddleChangeMm.value - 7.5)).toBeLessThan(0.3);
  });

  it('moves the bars with the saddle, so that drop and distance to them stay', () => {
    const { saddleChangeMm, barHeightChangeMm, barReachChangeMm } = crankChange(rider, 165);
    const tube = (73 * Math.PI) / 180;
    expect(barHeightChangeMm.value).toBeCloseTo(saddleChangeMm.value * Math.sin(tube), 9);
    // Up the tube is back.
    expect(barReachChangeMm.value).toBeCloseTo(-saddleChangeMm.value * Math.cos(tube), 9);
    expect(Math.hypot(barHeightChangeMm.sd, barReachChangeMm.sd)).toBeCloseTo(saddleChangeMm.sd, 9);
  });

  it('warns that the foot will not stay as it is', () => {
    expect(crankChange(rider, 165).cautions.map(({ code }) => code)).toEqual(['foot-pitch-drifts']);
  });

  it('changes nothing for the same crank', () => {
    const { saddleChangeMm, greatestKneeFlexionChangeDeg, highestThighChangeDeg } = crankChange(rider, 172.5);
    expect([saddleChangeMm.value, greatestKneeFlexionChangeDeg, highestThighChangeDeg]).toEqual([0, 0, 0]);
  });

  it.each([60, 300, Number.NaN])('refuses a crank of %d mm by name', (crank) => {
    expect(() => crankChange(rider, crank)).toThrow(/^newCrankLengthMm/);
  });
});

describe('compareCrankLengths', () => {
  it('leaves a proportion out, with what it lacks', () => {
    const { rows, leftOut } = compareCrankLengths({ tibiaLengthMm: 413 });
    expect(rows.map(({ proportion }) => proportion)).toEqual(['tibia-0.41']);
    expect(leftOut).toEqual([
      { proportion: 'leg-0.20', missing: ['legLengthMm'] },
      { proportion: 'leg-and-tibia', missing: ['legLengthMm'] },
    ]);
  });

  it('adds the error of a published fit to that of measuring', () => {
    const { rows } = compareCrankLengths({ legLengthMm: 880, tibiaLengthMm: 413 });
    expect(rows.map(({ crankLengthMm }) => crankLengthMm.sd)).toEqual([
      expect.closeTo(1.6, 9),
      expect.closeTo(0.41 * 8, 9),
      expect.closeTo(Math.hypot(0.25 * 8, 0.3 * 8, 22), 9),
    ]);
  });

  it.each([
    ['legLengthMm', { legLengthMm: 88 }],
    ['tibiaLengthMm', { tibiaLengthMm: Number.NaN }],
    ['inputs', {}],
  ])('names an impossible %s', (field, inputs) => {
    expect(() => compareCrankLengths(inputs)).toThrow(expect.objectContaining({ field }));
  });
});
