import { radiansOf } from '../angles.js';
import { formulaVersion } from '../formula-version.js';
import type { Point } from '../leg-chain/ankle-position.js';
import { shiftedFootPitch, type FootPitch } from '../leg-chain/foot-pitch.js';
import { jointAngles } from '../leg-chain/joint-angles.js';
import type { Leg } from '../leg-chain/leg.js';
import { requireErrors, requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';

/** The places a plumb line is dropped from; texts differ, so the one used is always named. */
export const kneeLandmarks = [
  {
    id: 'patella_lower_pole',
    definition: 'Lower pole of the kneecap.',
    source: 'Domalain et al. 2016, J Sci Cycling 5(2)',
  },
  {
    id: 'patella_front',
    definition: 'Front of the kneecap.',
    source: 'common practice, no source',
  },
  {
    id: 'tibial_tuberosity',
    definition: 'Bump of the shin bone below the kneecap.',
    source: 'common practice, no source',
  },
] as const;

export type KneeLandmarkId = (typeof kneeLandmarks)[number]['id'];

export interface KneeOverSpindleInput {
  readonly leg: Leg;
  readonly footPitch: FootPitch;
  /** Hip joint from the bottom bracket, `x` forward, `y` up. */
  readonly hip: Point;
  readonly landmark: KneeLandmarkId;
  /** How far the landmark lies in front of the knee joint with the crank level, measured on the rider. −50–120. */
  readonly landmarkAheadOfKneeJointMm: number;
}

/** Standard deviations of what was measured. */
export interface KneeOverSpindleErrors {
  readonly thighMm: number;
  readonly shankMm: number;
  readonly footLeverMm: number;
  readonly ankleAboveSpindleMm: number;
  readonly footPitchDeg: number;
  readonly hipXMm: number;
  readonly hipYMm: number;
  readonly landmarkAheadOfKneeJointMm: number;
}

/** House rule: tape and goniometer on a dressed rider; the hip joint is felt, not seen. */
export const usualKneeOverSpindleErrors: KneeOverSpindleErrors = {
  thighMm: 8,
  shankMm: 8,
  footLeverMm: 4,
  ankleAboveSpindleMm: 4,
  footPitchDeg: 3,
  hipXMm: 8,
  hipYMm: 8,
  landmarkAheadOfKneeJointMm: 5,
};

/**
 * How far a landmark of the knee is in front of the pedal spindle with the crank level and forward.
 *
 * A description of a position, not a target: the rationale of putting it above the spindle is unclear (Domalain et
 * al. 2016) and the advice built on it is opinion (Holliday & Swart 2021, Sports Med Health Sci 3(2):93–100).
 *
 * @returns mm, positive = in front of the spindle
 * @throws FitMathError when an input is out of range or the leg cannot reach
 * @source leg chain at crank 90°
 * @check src/setback/setback: knee by two circles; src/leg-chain/hip-for-knee-flexion: undone
 * @tolerance 1e-6 mm
 * @example kneeOverSpindle({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 10 }, hip: { xMm: -237.8, yMm: 777.9 },
 *   landmark: 'patella_lower_pole', landmarkAheadOfKneeJointMm: 30 }).aheadOfSpindleMm.value; // -5.23…
 */
export function kneeOverSpindle(
  input: KneeOverSpindleInput,
  errors: KneeOverSpindleErrors = usualKneeOverSpindleErrors,
): {
  readonly formulaVersion: string;
  readonly landmark: KneeLandmarkId;
  readonly aheadOfSpindleMm: Uncertain;
} {
  const { leg, hip, landmark } = input;
  const ahead = requireRange('landmarkAheadOfKneeJointMm', input.landmarkAheadOfKneeJointMm, -50, 120);
  requireErrors('errors', errors, 100);
  const aheadOfSpindleMm = propagate(
    {
      thighMm: leg.thighMm,
      shankMm: leg.shankMm,
      footLeverMm: leg.footLeverMm,
      ankleAboveSpindleMm: leg.ankleAboveSpindleMm,
      footPitchDeg: 0,
      hipXMm: hip.xMm,
      hipYMm: hip.yMm,
      landmarkAheadOfKneeJointMm: ahead,
    },
    { ...errors },
    (now) => {
      const { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm } = now;
      const shifted = { ...leg, thighMm, shankMm, footLeverMm, ankleAboveSpindleMm };
      const pitch = shiftedFootPitch(input.footPitch, now.footPitchDeg);
      const { thighElevationDeg } = jointAngles(shifted, pitch, { xMm: now.hipXMm, yMm: now.hipYMm }, 90);
      const kneeXMm = now.hipXMm + thighMm * Math.cos(radiansOf(thighElevationDeg));
      return kneeXMm + now.landmarkAheadOfKneeJointMm - leg.crankLengthMm;
    },
  );
  return { formulaVersion, landmark, aheadOfSpindleMm };
}
