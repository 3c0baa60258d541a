import type { Bike, Shoe } from '@studio/database';
import { usualErrors, type CleatPlanInput, type MeasurementKindId } from '@studio/fit-math';
import { MeasurementsMissing } from './fit-sessions.errors.js';
import type { MeasurementResponse, Side } from './measurements.dto.js';

const needed = [
  'thigh_length',
  'shank_length',
  'foot_lever',
  'ankle_above_spindle',
  'foot_pitch',
  'knee_flexion_straightest',
  'mth1_from_heel',
  'cleat_from_heel',
] as const satisfies readonly MeasurementKindId[];

/**
 * The plan's input from the record: the newest measurement of each kind on that side, the bike, the shoe.
 *
 * @throws MeasurementsMissing naming every kind that is not measured yet
 */
export function cleatPlanInput(
  side: Side,
  measurements: readonly MeasurementResponse[],
  bike: Bike,
  shoe: Shoe,
): CleatPlanInput {
  const newest = new Map(measurements.filter((item) => item.side === side).map((item) => [item.kind, item]));
  const missing = needed.filter((kind) => !newest.has(kind));
  if (missing.length > 0) throw new MeasurementsMissing(missing);
  const measured = (kind: (typeof needed)[number]): MeasurementResponse =>
    newest.get(kind) as MeasurementResponse;

  return {
    shoe: {
      outerLengthMm: shoe.outerLengthMm,
      holePattern: shoe.holePattern,
      slotFrontFromHeelMm: shoe.slotFrontFromHeelMm,
      slotRearFromHeelMm: shoe.slotRearFromHeelMm,
      archChannel: shoe.archChannel,
    },
    cleatFromHeelMm: measured('cleat_from_heel').mean,
    mth1FromHeelMm: measured('mth1_from_heel').mean,
    rider: {
      leg: {
        thighMm: measured('thigh_length').mean,
        shankMm: measured('shank_length').mean,
        footLeverMm: measured('foot_lever').mean,
        ankleAboveSpindleMm: measured('ankle_above_spindle').mean,
        crankLengthMm: bike.crankLengthMm,
      },
      footPitch: { kind: 'constant', pitchDeg: measured('foot_pitch').mean },
      minimumKneeFlexionDeg: measured('knee_flexion_straightest').mean,
      seatTubeAngleDeg: bike.seatTubeAngleDeg,
    },
    errors: {
      thighMm: measured('thigh_length').error,
      shankMm: measured('shank_length').error,
      footLeverMm: measured('foot_lever').error,
      ankleAboveSpindleMm: measured('ankle_above_spindle').error,
      footPitchDeg: measured('foot_pitch').error,
      minimumKneeFlexionDeg: measured('knee_flexion_straightest').error,
      seatTubeAngleDeg: usualErrors.seatTubeAngleDeg,
    },
  };
}
