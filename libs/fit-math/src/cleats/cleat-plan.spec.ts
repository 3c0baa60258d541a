import { describe, expect, it } from '@jest/globals';
import { cleatPlan, FitMathError, type CleatOption, type CleatPlanInput, type ShoeFacts } from '../index.js';

const shoe: ShoeFacts = {
  outerLengthMm: 290,
  holePattern: 'three_bolt',
  slotFrontFromHeelMm: 212,
  slotRearFromHeelMm: 197,
  archChannel: false,
};
const input: CleatPlanInput = {
  shoe,
  cleatFromHeelMm: 200,
  mth1FromHeelMm: 205,
  rider: {
    leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
    footPitch: { kind: 'constant', pitchDeg: 20 },
    minimumKneeFlexionDeg: 35,
    seatTubeAngleDeg: 73,
  },
};
const option = (way: string, plan = cleatPlan(input)): CleatOption => {
  const found = plan.options.find((item) => item.way === way);
  if (!found) throw new Error(`no option ${way}`);
  return found;
};

describe('cleatPlan', () => {
  it('places the cleat now against the metatarsal head and the midfoot line', () => {
    const plan = cleatPlan(input);
    expect(plan.midfootFromHeelMm).toBe(145);
    expect(plan.now).toEqual({ behindMth1Mm: 5, shortOfMidfootMm: 55 });
  });

  it('lands each way where its reach ends', () => {
    expect(
      cleatPlan(input).options.map(({ way, cleatFromHeelMm, movesBackMm }) => [
        way,
        cleatFromHeelMm,
        movesBackMm,
      ]),
    ).toEqual([
      ['within_slots', 197, 3],
      ['rear_plate_12', 185, 15],
      ['rear_plate_24', 173, 27],
      ['slot_extension', 182, 18],
      ['arch_base_three_bolt', 145, 55],
      ['arch_base_four_bolt', 145, 55],
    ]);
  });

  it('moves the bars by the vertical part of what the saddle moves', () => {
    const { saddleHeightChangeMm, barHeightChangeMm } = option('rear_plate_24');
    expect(barHeightChangeMm.value / saddleHeightChangeMm.value).toBeCloseTo(
      Math.sin((73 * Math.PI) / 180),
      10,
    );
  });

  it('keeps the straightest knee, and says what it were with the saddle left alone', () => {
    const { straightestAfter, straightestWithSaddleKept } = option('rear_plate_24');
    expect(straightestAfter.kneeFlexionDeg).toBe(35);
    expect(straightestWithSaddleKept?.kneeFlexionDeg).toBeLessThan(35);
  });

  it('says nothing of the knee where the leg would not reach an unchanged saddle', () => {
    const longer = {
      ...input.rider,
      minimumKneeFlexionDeg: 8,
      footPitch: { kind: 'constant', pitchDeg: 40 } as const,
    };
    expect(
      option('arch_base_four_bolt', cleatPlan({ ...input, rider: longer })).straightestWithSaddleKept,
    ).toBeNull();
  });

  it('rules out a part the hole pattern cannot take', () => {
    const plan = cleatPlan({ ...input, shoe: { ...shoe, holePattern: 'two_bolt' } });
    expect(option('rear_plate_12', plan).reasons.map(({ code }) => code)).toEqual(['hole-pattern']);
  });

  it('rules out going where the cleat is already', () => {
    const plan = cleatPlan({ ...input, cleatFromHeelMm: 190 });
    expect(option('within_slots', plan).reasons.map(({ code }) => code)).toEqual(['not-rearward']);
  });

  it('warns of what cannot be undone, and of a large change', () => {
    const codes = (way: string): string[] => option(way).cautions.map(({ code }) => code);
    expect(codes('rear_plate_12')).toEqual(['foot-pitch-drifts']);
    expect(codes('rear_plate_24')).toEqual(['foot-pitch-drifts', 'in-stages', 'toe-overlap']);
    expect(codes('arch_base_four_bolt')).toContain('not-reversible');
  });

  it.each([
    ['shoe.outerLengthMm', { ...input, shoe: { ...shoe, outerLengthMm: 29 } }],
    ['shoe.slotFrontFromHeelMm', { ...input, shoe: { ...shoe, slotFrontFromHeelMm: 190 } }],
    ['cleatFromHeelMm', { ...input, cleatFromHeelMm: Number.NaN }],
    ['mth1FromHeelMm', { ...input, mth1FromHeelMm: 400 }],
  ])('names an impossible %s', (field, wrong) => {
    expect(() => cleatPlan(wrong)).toThrow(FitMathError);
    expect(() => cleatPlan(wrong)).toThrow(new RegExp(`^${field.replace('.', '\\.')}: `));
  });
});
