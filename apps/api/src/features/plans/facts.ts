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
  /** How the foot was held over the turn in the newest recording of motion, leg by leg. */
  readonly captured: Readonly<Partial<Record<Side, CapturedFootPitch>>>;
  readonly bike: Bike;
  readonly shoe: Shoe;
}

export interface CapturedFootPitch {
  readonly recordingId: string;
  readonly footPitch: FootPitch;
}

/** Where a foot pitch among a plan's inputs is from. */
export interface FootPitchFrom {
  readonly side: Side;
  readonly kind: 'motion_recording' | 'measurement';
  readonly id: string;
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

/** The standing position of the newest stage there is. */
export const newestPosition = (positions: readonly PositionResponse[]): PositionResponse | undefined =>
  (['left', 'proposed', 'found'] as const)
    .map((stage) => positions.find((position) => position.stage === stage))
    .find((position) => position !== undefined);

/**
 * Figures of the newest stage that has a position: left, else proposed, else found.
 *
 * @throws NotMeasuredYet naming every figure that is not measured there
 */
export function figures<Field extends PositionFieldId>(
  { positions }: SessionFacts,
  fields: readonly Field[],
): Readonly<Record<Field, number>> {
  const position = newestPosition(positions);
  const missing = fields.filter((field) => position?.[field] == null);
  if (missing.length > 0)
    throw new NotMeasuredYet(missing.map((field) => `position_${position?.stage ?? 'found'}.${field}`));
  return position as unknown as Record<Field, number>;
}

const legKinds = [
  'thigh_length',
  'shank_length',
  'foot_lever',
  'ankle_above_spindle',
  'foot_pitch',
  'knee_flexion_straightest',
] as const satisfies readonly MeasurementKindId[];
type LegKind = (typeof legKinds)[number];

type LegMeasurements = Readonly<Record<LegKind, Pick<MeasurementResponse, 'mean' | 'error'>>>;

/** What a leg is computed from: its foot pitch need not be measured where captured motion shows it over the whole turn. */
export const legKindsOf = ({ captured }: SessionFacts, ...sides: Side[]): readonly LegKind[] =>
  sides.every((side) => captured[side]) ? legKinds.filter((kind) => kind !== 'foot_pitch') : legKinds;

/** @param of measurements of `legKindsOf` that leg */
export function riderFrom(
  { captured, bike }: SessionFacts,
  side: Side | null,
  of: LegMeasurements,
): RiderOnBike & { leg: Leg; footPitch: FootPitch } {
  const footPitch = side === null ? undefined : captured[side]?.footPitch;
  return riderWith(of, bike, footPitch ?? { kind: 'constant', pitchDeg: of.foot_pitch.mean });
}

const riderWith = (of: LegMeasurements, bike: Bike, footPitch: FootPitch) => ({
  leg: {
    thighMm: of.thigh_length.mean,
    shankMm: of.shank_length.mean,
    footLeverMm: of.foot_lever.mean,
    ankleAboveSpindleMm: of.ankle_above_spindle.mean,
    crankLengthMm: bike.crankLengthMm,
  },
  footPitch,
  minimumKneeFlexionDeg: of.knee_flexion_straightest.mean,
  seatTubeAngleDeg: bike.seatTubeAngleDeg,
});

/** Captured motion repeats itself closely from turn to turn; what errs is where the markers sit, so the usual error holds. */
export const riderErrorsFrom = (
  { captured }: SessionFacts,
  side: Side | null,
  of: LegMeasurements,
): RiderErrors => ({
  thighMm: of.thigh_length.error,
  shankMm: of.shank_length.error,
  footLeverMm: of.foot_lever.error,
  ankleAboveSpindleMm: of.ankle_above_spindle.error,
  footPitchDeg: side !== null && captured[side] ? usualErrors.footPitchDeg : of.foot_pitch.error,
  minimumKneeFlexionDeg: of.knee_flexion_straightest.error,
  seatTubeAngleDeg: usualErrors.seatTubeAngleDeg,
});

/** The rider with a leg midway between the two; of captured motion only where there is some of both legs. */
export function midwayRider(facts: SessionFacts): RiderOnBike {
  const kinds = legKindsOf(facts, 'left', 'right');
  const left = measured(facts, 'left', kinds);
  const right = measured(facts, 'right', kinds);
  const midway = Object.fromEntries(
    kinds.map((kind) => [
      kind,
      {
        mean: (left[kind].mean + right[kind].mean) / 2,
        error: Math.hypot(left[kind].error, right[kind].error) / 2,
      },
    ]),
  ) as LegMeasurements;
  const { captured, bike } = facts;
  return captured.left && captured.right
    ? riderWith(midway, bike, midwayPitch(captured.left.footPitch, captured.right.footPitch))
    : riderFrom(facts, null, midway);
}

/** Recordings are worked out at the same steps of the turn. */
function midwayPitch(left: FootPitch, right: FootPitch): FootPitch {
  if (left.kind !== 'series' || right.kind !== 'series') throw new TypeError('captured motion is a series');
  const other = right.readingsDeg;
  return {
    kind: 'series',
    readingsDeg: left.readingsDeg.map((pitchDeg, step) => (pitchDeg + (other[step] ?? pitchDeg)) / 2),
  };
}

/** Of the legs a plan was worked out with. */
export function footPitchFrom(facts: SessionFacts, legs: readonly Side[]): FootPitchFrom[] {
  const fromMotion = legs.every((side) => facts.captured[side]);
  return legs.flatMap((side): FootPitchFrom[] => {
    const recording = fromMotion ? facts.captured[side] : undefined;
    if (recording) return [{ side, kind: 'motion_recording', id: recording.recordingId }];
    const measurement = newest(facts, 'foot_pitch', side);
    return measurement ? [{ side, kind: 'measurement', id: measurement.id }] : [];
  });
}

/** Where the rider meets this bike, from the newest position. */
export function contactPointsFrom(facts: SessionFacts): ContactPoints {
  const { seatTubeAngleDeg } = facts.bike;
  return contactPointsAt(figures(facts, contactFigures), seatTubeAngleDeg);
}

export const contactFigures = [
  'saddleHeightMm',
  'saddleSetbackMm',
  'saddleSetbackAt80Mm',
  'hoodReachMm',
  'hoodDropMm',
] as const satisfies readonly PositionFieldId[];

/** `x` forward and `y` up from the bottom bracket. */
export function contactPointsAt(
  position: Readonly<Record<(typeof contactFigures)[number], number>>,
  seatTubeAngleDeg: number,
): ContactPoints {
  const saddleYMm = position.saddleHeightMm * Math.sin((seatTubeAngleDeg * Math.PI) / 180);
  return {
    saddle: { xMm: -position.saddleSetbackAt80Mm, yMm: saddleYMm },
    upperGrip: {
      xMm: position.hoodReachMm - position.saddleSetbackMm,
      yMm: saddleYMm - position.hoodDropMm,
    },
    lowerGripYMm: null,
  };
}
