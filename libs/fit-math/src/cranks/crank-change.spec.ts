import { describe, expect, it } from '@jest/globals';
import type { RiderOnBike } from '../cleats/saddle-change.js';
import { crankChange } from './crank-change.js';

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

  // Ferrer-Roca et al. 2017, J Sports Sci, doi 10.1080/02640414.2016.1215490: between 5 mm shorter and 5 mm longer,
  // hip and knee bend 1.8–3.4° more at the most; held as sign and rough size, since the ankle is free in life.
  it('bends knee and hip more on a longer crank, by the order riders were measured to', () => {
    const longer = crankChange({ ...rider, leg: { ...rider.leg, crankLengthMm: 167.5 } }, 177.5);
    expect(longer.greatestKneeFlexionChangeDeg).toBeGreaterThan(1);
    expect(longer.greatestKneeFlexionChangeDeg).toBeLessThan(7);
    expect(longer.highestThighChangeDeg).toBeGreaterThan(0.5);
  });

  it('changes nothing for the same crank', () => {
    const { saddleChangeMm, greatestKneeFlexionChangeDeg, highestThighChangeDeg } = crankChange(rider, 172.5);
    expect([saddleChangeMm.value, greatestKneeFlexionChangeDeg, highestThighChangeDeg]).toEqual([0, 0, 0]);
  });

  it.each([60, 300, Number.NaN])('refuses a crank of %d mm by name', (crank) => {
    expect(() => crankChange(rider, crank)).toThrow(/^newCrankLengthMm/);
  });
});
