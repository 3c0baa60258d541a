import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  cleatPlaceRules,
  cleatPlaces,
  cleatRotation,
  cleatsForBothFeet,
  footHardware,
  saddleChangeForCleat,
  stance,
  stanceOptions,
  type FootLandmarks,
  type RiderOnBike,
  type StanceInput,
} from '../index.js';

const foot: FootLandmarks = { mth1FromHeelMm: 203, mth5FromHeelMm: 179, heelBoneFromHeelMm: 8 };
const shorter: FootLandmarks = { mth1FromHeelMm: 191, mth5FromHeelMm: 169, heelBoneFromHeelMm: 8 };
const rider: RiderOnBike = {
  leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
  footPitch: { kind: 'constant', pitchDeg: 20 },
  minimumKneeFlexionDeg: 35,
  seatTubeAngleDeg: 73,
};

describe('cleatPlaces', () => {
  it('goes from front to back, each with the error of the landmarks it uses', () => {
    const { places } = cleatPlaces(foot);
    expect(places.map(({ rule, cleatFromHeelMm: { value } }) => [rule, value])).toEqual([
      ['under-first-head', 203],
      ['between-heads', 191],
      ['under-fifth-head', 179],
      ['quarter-to-heel', 154.25],
      ['half-to-heel', 105.5],
    ]);
    const sds = places.map(({ cleatFromHeelMm: { sd } }) => sd);
    [3, 2.5, 4, Math.hypot(0.75 * 3, 0.25 * 2), Math.hypot(1.5, 1)].forEach((sd, i) => {
      expect(sds[i]).toBeCloseTo(sd, 9);
    });
  });

  it('moves along with the shoe: what it adds behind the heel is added to every place', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 25, noNaN: true }), (more) => {
        const longer = {
          mth1FromHeelMm: foot.mth1FromHeelMm + more,
          mth5FromHeelMm: foot.mth5FromHeelMm + more,
          heelBoneFromHeelMm: foot.heelBoneFromHeelMm + more,
        };
        cleatPlaceRules.forEach(({ placeMm }) => {
          expect(placeMm(longer) - placeMm(foot)).toBeCloseTo(more, 9);
        });
      }),
    );
  });

  it.each([
    ['mth1FromHeelMm', { mth1FromHeelMm: 20 }],
    ['mth5FromHeelMm', { mth5FromHeelMm: Number.NaN }],
    ['mth5FromHeelMm', { mth1FromHeelMm: 170, mth5FromHeelMm: 200 }],
    ['heelBoneFromHeelMm', { heelBoneFromHeelMm: -3 }],
  ])('names an impossible %s', (field, change) => {
    expect(() => cleatPlaces({ ...foot, ...change })).toThrow(expect.objectContaining({ field }));
  });
});

describe('cleatsForBothFeet', () => {
  it('gives each foot its own place, and says what one place for both costs each', () => {
    const found = cleatsForBothFeet({ left: foot, right: shorter, rule: 'under-first-head' });
    expect(found.own.left.value).toBe(203);
    expect(found.own.right.value).toBe(191);
    expect(found.stagger.differenceMm.value).toBe(12);
    expect(found.stagger.beyondError).toBe(true);
    expect(found.compromise).toMatchObject({
      cleatFromHeelMm: { value: 197 },
      leftOffMm: -6,
      rightOffMm: 6,
      saddleHeightChangeMm: null,
    });
  });

  it('works out what the compromise asks of the saddle, leg by leg, by the chain', () => {
    const { compromise } = cleatsForBothFeet({
      left: foot,
      right: shorter,
      rule: 'under-first-head',
      riders: { left: rider, right: rider },
    });
    expect(compromise.saddleHeightChangeMm?.left).toEqual(saddleChangeForCleat(rider, 6));
    expect(compromise.saddleHeightChangeMm?.right).toEqual(saddleChangeForCleat(rider, -6));
  });

  it('sets nothing apart for a difference within the error', () => {
    const found = cleatsForBothFeet({
      left: foot,
      right: { ...foot, mth1FromHeelMm: 200 },
      rule: 'under-first-head',
    });
    expect(found.stagger.beyondError).toBe(false);
    expect(found.cautions.map(({ code }) => code)).toEqual(['within-error']);
  });

  it('mirrors when the feet change sides', () => {
    for (const { id } of cleatPlaceRules) {
      const one = cleatsForBothFeet({ left: foot, right: shorter, rule: id });
      const other = cleatsForBothFeet({ left: shorter, right: foot, rule: id });
      expect(other.stagger.differenceMm.value).toBeCloseTo(-one.stagger.differenceMm.value, 12);
      expect(other.compromise.leftOffMm).toBeCloseTo(one.compromise.rightOffMm, 12);
      expect(other.compromise.cleatFromHeelMm).toEqual(one.compromise.cleatFromHeelMm);
    }
  });

  it('names the side of an impossible landmark', () => {
    const wrong = { ...foot, mth1FromHeelMm: 900 };
    expect(() => cleatsForBothFeet({ left: foot, right: wrong, rule: 'between-heads' })).toThrow(
      expect.objectContaining({ field: 'right.mth1FromHeelMm' }),
    );
  });
});

const side = { axleMm: 53, washersMm: 0, footOutsidePedalMm: 0, sidePlayMm: { inwards: 2, outwards: 2.5 } };
const bike: StanceInput = { treadMm: 150, left: side, right: side };

describe('stance', () => {
  it('adds up from the middle of the bike outwards', () => {
    expect(stance(bike)).toMatchObject({ leftMm: 128, rightMm: 128, widthMm: 256 });
    expect(stance({ ...bike, right: { ...side, washersMm: 2, footOutsidePedalMm: -3 } })).toMatchObject({
      leftMm: 128,
      rightMm: 127,
      widthMm: 255,
    });
  });

  it.each([
    [126.5, ['cleat_side_play']],
    [130, ['cleat_side_play', 'pedal_washer']],
    [136, ['long_axle']],
    [150, ['pedal_extender']],
    [160, []],
  ])('reaches %d mm from the middle by %j', (wantedMm, parts) => {
    const reach = stanceOptions(bike, 'left', wantedMm).options.filter(({ reaches }) => reaches);
    expect(reach.map(({ part }) => part)).toEqual(parts);
  });

  it('says what is left over, and never moves a foot farther than asked unless the part can do no less', () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 200, noNaN: true }), (wantedMm) => {
        const { asksOutMm, options } = stanceOptions(bike, 'right', wantedMm);
        expect(asksOutMm).toBeCloseTo(wantedMm - 128, 9);
        for (const { movesOutMm, leftOverMm, reaches } of options) {
          expect(movesOutMm + leftOverMm).toBeCloseTo(asksOutMm, 9);
          expect(reaches).toBe(Math.abs(leftOverMm) <= 0.5);
        }
      }),
    );
  });

  it.each([
    ['treadMm', { treadMm: 15 }],
    ['left.axleMm', { left: { ...side, axleMm: Number.NaN } }],
    ['right.sidePlayMm.outwards', { right: { ...side, sidePlayMm: { inwards: 0, outwards: -1 } } }],
  ])('names an impossible %s', (field, change) => {
    expect(() => stance({ ...bike, ...change })).toThrow(expect.objectContaining({ field }));
  });

  it('names an impossible wish', () => {
    expect(() => stanceOptions(bike, 'left', 13)).toThrow(expect.objectContaining({ field: 'wantedMm' }));
  });

  it('has hardware with a range in order and no two of one name', () => {
    for (const { by } of footHardware) expect(by[0]).toBeLessThanOrEqual(by[1]);
    expect(new Set(footHardware.map(({ id }) => id)).size).toBe(footHardware.length);
  });
});

describe('cleatRotation', () => {
  const input = { toeOutDeg: 6, cleatTurnsDeg: 8, floatDeg: 6, heelBehindSpindleMm: 200 };

  it('puts the foot’s own angle in the middle of the float where the cleat turns far enough', () => {
    expect(cleatRotation(input)).toMatchObject({
      floatMiddleDeg: 6,
      freeToeOutDeg: 3,
      freeToeInDeg: 3,
      reaches: true,
    });
  });

  it('says how far the foot is held away where it does not', () => {
    const held = cleatRotation({ ...input, toeOutDeg: 20 });
    expect(held).toMatchObject({ floatMiddleDeg: 8, freeToeOutDeg: -9, reaches: false });
    expect(held.cautions.map(({ code }) => code)).toEqual(['held-away', 'heel-clearance']);
  });

  it('brings the heel in by its lever for a toe that points out, and away for one that points in', () => {
    expect(cleatRotation({ ...input, toeOutDeg: 30 }).heelInMm).toBeCloseTo(100, 9);
    expect(cleatRotation({ ...input, toeOutDeg: -30 }).heelInMm).toBeCloseTo(-100, 9);
    expect(cleatRotation({ ...input, toeOutDeg: -5 }).cautions).toEqual([]);
  });

  it('shares the whole float between both ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (toeOutDeg, cleatTurnsDeg, floatDeg) => {
          const { freeToeInDeg, freeToeOutDeg } = cleatRotation({
            ...input,
            toeOutDeg,
            cleatTurnsDeg,
            floatDeg,
          });
          expect(freeToeInDeg + freeToeOutDeg).toBeCloseTo(floatDeg, 9);
        },
      ),
    );
  });

  it.each(['toeOutDeg', 'cleatTurnsDeg', 'floatDeg', 'heelBehindSpindleMm'])(
    'names an impossible %s',
    (field) => {
      expect(() => cleatRotation({ ...input, [field]: Number.NaN })).toThrow(
        expect.objectContaining({ field }),
      );
    },
  );
});
