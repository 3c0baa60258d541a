import { describe, expect, it } from '@jest/globals';
import { cleatPlan, type CleatPlan, type CleatPlanInput, type HolePattern } from '@studio/fit-math';

/**
 * Pooled means of the ANSUR II survey, n 6068: Gordon et al. 2014, NATICK/TR-15/007. Landmark heights, standing.
 */
const ansur = {
  trochanterionMm: 882.74,
  lateralFemoralEpicondyleMm: 483.24,
  lateralMalleolusMm: 69.58,
  footLengthMm: 263.03,
  ballOfFootLengthMm: 194.75,
};

/** What a shoe and a pedal add. Common practice, no source. */
const shoeAdds = { aroundTheFootMm: 22, behindTheHeelMm: 8, soleAndPedalMm: 42 };

/** The survey's mean person on a bike: segments by landmark differences, cleat under the first metatarsal head. */
function meanPerson(
  pitchDeg: number,
  shoe: { holePattern?: HolePattern; archChannel?: boolean } = {},
): CleatPlan {
  const mth1FromHeelMm = ansur.ballOfFootLengthMm + shoeAdds.behindTheHeelMm;
  // Ankle joint at a quarter of the foot's length: modelling convention, not a measured mean.
  const ankleFromHeelMm = 0.25 * ansur.footLengthMm + shoeAdds.behindTheHeelMm;
  const input: CleatPlanInput = {
    shoe: {
      outerLengthMm: ansur.footLengthMm + shoeAdds.aroundTheFootMm,
      holePattern: 'three_bolt',
      slotFrontFromHeelMm: mth1FromHeelMm + 6,
      slotRearFromHeelMm: mth1FromHeelMm - 9,
      archChannel: false,
      ...shoe,
    },
    cleatFromHeelMm: mth1FromHeelMm,
    mth1FromHeelMm,
    rider: {
      leg: {
        thighMm: ansur.trochanterionMm - ansur.lateralFemoralEpicondyleMm,
        shankMm: ansur.lateralFemoralEpicondyleMm - ansur.lateralMalleolusMm,
        footLeverMm: mth1FromHeelMm - ankleFromHeelMm,
        ankleAboveSpindleMm: ansur.lateralMalleolusMm + shoeAdds.soleAndPedalMm,
        crankLengthMm: 170,
      },
      footPitch: { kind: 'constant', pitchDeg },
      // Middle of the dynamic 30–40° of Ferrer-Roca et al. 2012, J Strength Cond Res 26(11):3025–3029.
      minimumKneeFlexionDeg: 35,
      seatTubeAngleDeg: 73,
    },
  };
  return cleatPlan(input);
}

/** A foot pitch of a rider who points the toe, at the bottom. Common practice, no source. */
const toePointer = 20;

const saddleChange = (plan: CleatPlan, way: string): number =>
  plan.options.find((option) => option.way === way)?.saddleHeightChangeMm.value ?? Number.NaN;

describe('published anthropometry through the cleat plan', () => {
  it('has the segments the survey gives', () => {
    // NATICK/TR-15/007: pooled thigh 399.5, shank 413.7, between the means of women and men.
    expect(ansur.trochanterionMm - ansur.lateralFemoralEpicondyleMm).toBeCloseTo(399.5, 1);
    expect(ansur.lateralFemoralEpicondyleMm - ansur.lateralMalleolusMm).toBeCloseTo(413.66, 1);
  });

  it('puts the ball of the foot at 0.7404 of the foot, so midfoot lies well behind it', () => {
    expect(ansur.ballOfFootLengthMm / ansur.footLengthMm).toBeCloseTo(0.7404, 4);
    const plan = meanPerson(20);
    expect(plan.now.shortOfMidfootMm).toBeGreaterThan(50);
    expect(plan.now.shortOfMidfootMm).toBeLessThan(70);
  });

  it('moves the cleat by what was tested as a rearward place: a quarter of heel-to-ball is 49 mm', () => {
    // Van Sickle & Hull 2007, J Biomech 40:1262–1267: mid place, a quarter of the way to the rear of the calcaneus.
    const testedMm = ansur.ballOfFootLengthMm / 4;
    const [, , rearPlate24] = meanPerson(20).options;
    expect(testedMm).toBeCloseTo(48.7, 1);
    expect(rearPlate24?.movesBackMm).toBeLessThan(testedMm);
    expect(meanPerson(20).now.shortOfMidfootMm).toBeGreaterThan(testedMm);
  });

  it('unloads the calf in the direction that was measured', () => {
    // Litzenberger et al. 2008, The Engineering of Sport 7(1):215–222: calf effort down by more than 20 % with the
    // cleat under the tarsometatarsal joints.
    const midfoot = meanPerson(20).options.find(({ way }) => way === 'arch_base_four_bolt');
    expect(midfoot?.ankleMomentRatio).toBeLessThan(0.8);
  });
});

describe('facts of the trade: common practice, no source', () => {
  it('lowers the saddle by some 30–40 mm for a rider who points the toe and goes to midfoot', () => {
    const change = saddleChange(meanPerson(toePointer), 'arch_base_four_bolt');
    expect(change).toBeLessThanOrEqual(-30);
    expect(change).toBeGreaterThanOrEqual(-40);
  });

  it('keeps nearly the same saddle height for a rider who drops the heel', () => {
    expect(Math.abs(saddleChange(meanPerson(-8), 'arch_base_four_bolt'))).toBeLessThan(3);
  });

  it('brings the bars down by as much as the saddle comes down', () => {
    for (const { saddleHeightChangeMm, barHeightChangeMm } of meanPerson(toePointer).options) {
      const saddleDownMm = saddleHeightChangeMm.value * Math.sin((73 * Math.PI) / 180);
      expect(barHeightChangeMm.value).toBeCloseTo(saddleDownMm, 6);
    }
  });

  it('has rear plates of about 12 and 24 mm', () => {
    const plan = meanPerson(toePointer);
    const inSlots = plan.options.find(({ way }) => way === 'within_slots')?.movesBackMm ?? Number.NaN;
    const beyond = plan.options
      .filter(({ way }) => way.startsWith('rear_plate'))
      .map(({ movesBackMm }) => movesBackMm - inSlots);
    expect(beyond).toEqual([expect.closeTo(12), expect.closeTo(24)]);
  });

  it('has most of the effect with the 24 mm plate, without true midfoot', () => {
    const plan = meanPerson(toePointer);
    const plate = plan.options.find(({ way }) => way === 'rear_plate_24');
    expect(saddleChange(plan, 'rear_plate_24') / saddleChange(plan, 'arch_base_four_bolt')).toBeGreaterThan(
      0.5,
    );
    expect(plate?.shortOfMidfootMm).toBeGreaterThan(10);
  });

  it('does not reach true midfoot by a slot extension', () => {
    expect(
      meanPerson(toePointer).options.find(({ way }) => way === 'slot_extension')?.shortOfMidfootMm,
    ).toBeGreaterThan(10);
  });

  it('cannot seat a curved three-bolt cleat on a flat cast base, and can seat a four-bolt base plate', () => {
    const plan = meanPerson(toePointer);
    const reasons = (way: string) =>
      plan.options.find((option) => option.way === way)?.reasons.map(({ code }) => code);
    expect(reasons('arch_base_three_bolt')).toContain('curved-cleat-on-flat-base');
    expect(reasons('arch_base_four_bolt')).toEqual([]);
  });

  it('cannot put an arch base under a sole with a channel cut through the arch', () => {
    const plan = meanPerson(toePointer, { archChannel: true });
    const arch = plan.options.filter(({ way }) => way.startsWith('arch_base'));
    expect(arch.map(({ feasible }) => feasible)).toEqual([false, false]);
    for (const { reasons } of arch) expect(reasons.map(({ code }) => code)).toContain('arch-channel');
  });
});
