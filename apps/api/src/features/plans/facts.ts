import type { Bike, Shoe } from '@studio/database';
import {
  usualErrors,
  type ContactPoints,
  type FootPitch,
  type Leg,
  type MeasurementKindId,
  type PositionFieldId,
  type RiderErrors,
  type RiderOnBike,
} from '@studio/fit-math';
import type { MeasurementResponse, PositionResponse } from '../fit-sessions/index.js';
import { NotMeasuredYet } from './plans.errors.js';

export type Side = 'left' | 'right';

/** What the record of a session knows; the newest measurement of each kind, the standing positions. */
export interface SessionFacts {
  readonly measurements: readonly MeasurementResponse[];
  readonly positions: readonly PositionResponse[];
  readonly bike: Bike;
  readonly shoe: Shoe;
}

const newest = (facts: SessionFacts, kind: MeasurementKindId, side: Side | null) =>
  facts.measurements.findLast((item) => item.kind === kind && item.side === side);

/**
 * The newest measurement of each kind, by kind.
 *
 * @throws NotMeasuredYet naming every kind that is not measured on that side
 */
export function measured<Kind extends MeasurementKindId>(
  facts: SessionFacts,
  side: Side | null,
  kinds: readonly Kind[],
): Readonly<Record<Kind, MeasurementResponse>> {
  const missing = kinds.filter((kind) => !newest(facts, kind, side));
  if (missing.length > 0) throw new NotMeasuredYet(missing);
  return Object.fromEntries(kinds.map((kind) => [kind, newest(facts, kind, side)])) as Record<
    Kind,
    MeasurementResponse
  >;
}

/** The mean of the newest measurement; undefined where nothing was measured. */
export const meanOf = (facts: SessionFacts, kind: MeasurementKindId, side: Side | null): number | undefined =>
  newest(facts, kind, side)?.mean;

/**
 * Figures of the newest stage that has a position: left, else proposed, else found.
 *
 * @throws NotMeasuredYet naming every figure that is not measured there
 */
export function figures<Field extends PositionFieldId>(
  { positions }: SessionFacts,
  fields: readonly Field[],
): Readonly<Record<Field, number>> {
  const stage = (['left', 'proposed', 'found'] as const).find((name) =>
    positions.some((position) => position.stage === name),
  );
  const position = positions.find((item) => item.stage === stage);
  const missing = fields.filter((field) => position?.[field] == null);
  if (missing.length > 0)
    throw new NotMeasuredYet(missing.map((field) => `position_${stage ?? 'found'}.${field}`));
  return position as unknown as Record<Field, number>;
}

export const legKinds = [
  'thigh_length',
  'shank_length',
  'foot_lever',
  'ankle_above_spindle',
  'foot_pitch',
  'knee_flexion_straightest',
] as const satisfies readonly MeasurementKindId[];

type LegMeasurements = Readonly<
  Record<(typeof legKinds)[number], Pick<MeasurementResponse, 'mean' | 'error'>>
>;

export function riderFrom(of: LegMeasurements, bike: Bike): RiderOnBike & { leg: Leg; footPitch: FootPitch } {
  return {
    leg: {
      thighMm: of.thigh_length.mean,
      shankMm: of.shank_length.mean,
      footLeverMm: of.foot_lever.mean,
      ankleAboveSpindleMm: of.ankle_above_spindle.mean,
      crankLengthMm: bike.crankLengthMm,
    },
    footPitch: { kind: 'constant', pitchDeg: of.foot_pitch.mean },
    minimumKneeFlexionDeg: of.knee_flexion_straightest.mean,
    seatTubeAngleDeg: bike.seatTubeAngleDeg,
  };
}

export const riderErrorsFrom = (of: LegMeasurements): RiderErrors => ({
  thighMm: of.thigh_length.error,
  shankMm: of.shank_length.error,
  footLeverMm: of.foot_lever.error,
  ankleAboveSpindleMm: of.ankle_above_spindle.error,
  footPitchDeg: of.foot_pitch.error,
  minimumKneeFlexionDeg: of.knee_flexion_straightest.error,
  seatTubeAngleDeg: usualErrors.seatTubeAngleDeg,
});

/** The rider with a leg midway between the two. */
export function midwayRider(facts: SessionFacts): RiderOnBike {
  const left = measured(facts, 'left', legKinds);
  const right = measured(facts, 'right', legKinds);
  const midway = Object.fromEntries(
    legKinds.map((kind) => [
      kind,
      {
        mean: (left[kind].mean + right[kind].mean) / 2,
        error: Math.hypot(left[kind].error, right[kind].error) / 2,
      },
    ]),
  ) as LegMeasurements;
  return riderFrom(midway, facts.bike);
}

/** Where the rider meets this bike, from the newest position; `x` forward and `y` up from the bottom bracket. */
export function contactPointsFrom(facts: SessionFacts): ContactPoints {
  const position = figures(facts, [
    'saddleHeightMm',
    'saddleSetbackMm',
    'saddleSetbackAt80Mm',
    'hoodReachMm',
    'hoodDropMm',
  ]);
  const saddleYMm = position.saddleHeightMm * Math.sin((facts.bike.seatTubeAngleDeg * Math.PI) / 180);
  return {
    saddle: { xMm: -position.saddleSetbackAt80Mm, yMm: saddleYMm },
    upperGrip: {
      xMm: position.hoodReachMm - position.saddleSetbackMm,
      yMm: saddleYMm - position.hoodDropMm,
    },
    lowerGripYMm: null,
  };
}
