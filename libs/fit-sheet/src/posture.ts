import type { KneeTurn, SidePosture } from '@studio/drawings';
import {
  FitMathError,
  hipForKneeFlexion,
  legPoints,
  revolution,
  straightest,
  type CleatPlanInput,
  type FootPitch,
  type Leg,
  type MeasurementKindId,
  type Point,
} from '@studio/fit-math';
import type { FitSheetFacts, PositionFacts, Side } from './facts.js';
import { upperBody } from './upper-body.js';

/** A leg as it was measured, with the cleat where it was found. */
export interface LegFacts {
  readonly side: Side;
  readonly leg: Leg;
  readonly pitch: FootPitch;
  readonly kneeFlexionStraightestDeg: number;
  readonly cleatFromHeelMm: number;
}

const needed = [
  'thigh_length',
  'shank_length',
  'foot_lever',
  'ankle_above_spindle',
  'knee_flexion_straightest',
  'cleat_from_heel',
] as const satisfies readonly MeasurementKindId[];

/**
 * The leg that is drawn: the right one, which one sees with the rider facing right, or else the left. What a plan was
 * computed from stands before measurements, of which later ones may be from after the changes.
 */
export function legOf(facts: FitSheetFacts): LegFacts | null {
  return measuredLeg(facts, 'right') ?? measuredLeg(facts, 'left');
}

function measuredLeg(facts: FitSheetFacts, side: Side): LegFacts | null {
  const plan = facts.plans.find((item) => item.side === side);
  if (plan) return ofPlan(side, plan.inputs);
  const values = new Map(
    facts.measurements.filter((item) => item.side === side).map(({ kind, mean }) => [kind, mean]),
  );
  const value = (kind: MeasurementKindId): number => values.get(kind) ?? Number.NaN;
  const series = facts.footPitch[side];
  if (needed.some((kind) => !values.has(kind)) || (!series && !values.has('foot_pitch'))) return null;
  return {
    side,
    leg: {
      thighMm: value('thigh_length'),
      shankMm: value('shank_length'),
      footLeverMm: value('foot_lever'),
      ankleAboveSpindleMm: value('ankle_above_spindle'),
      crankLengthMm: facts.found?.values.crankLengthMm ?? facts.bike.crankLengthMm,
    },
    pitch: series
      ? { kind: 'series', readingsDeg: series }
      : { kind: 'constant', pitchDeg: value('foot_pitch') },
    kneeFlexionStraightestDeg: value('knee_flexion_straightest'),
    cleatFromHeelMm: value('cleat_from_heel'),
  };
}

const ofPlan = (side: Side, { rider, cleatFromHeelMm }: CleatPlanInput): LegFacts => ({
  side,
  leg: rider.leg,
  pitch: rider.footPitch,
  kneeFlexionStraightestDeg: rider.minimumKneeFlexionDeg,
  cleatFromHeelMm,
});

export interface RiderOnBike {
  readonly posture: SidePosture;
  /** Null where there is no leg to compute it with, or it would not reach. */
  readonly knee: KneeTurn | null;
}

/**
 * Bike and leg as found, and as left: there the hip goes where the saddle went, cleat and crank are as they were left,
 * and the foot is held as before. What it comes to is computed, and to be measured at the follow-up.
 */
export function ridersOnBike(facts: FitSheetFacts): {
  leg: LegFacts | null;
  found: RiderOnBike | null;
  left: RiderOnBike | null;
} {
  const { found, left } = facts;
  const leg = found ? legOf(facts) : null;
  const stature = facts.measurements.find(({ kind }) => kind === 'stature')?.mean;
  const hip = leg ? hipAsFound(leg, facts.bike.seatTubeAngleDeg) : null;
  const onBike = (position: PositionFacts | null): RiderOnBike | null => {
    const contacts = position && contactsOf(position, facts.bike.seatTubeAngleDeg);
    if (!position || !contacts) return null;
    const ridden = leg && hip && found ? pedalling(leg, hip, facts, { found, position }) : null;
    const points = ridden?.points ?? null;
    const hand = contacts.hoods ?? contacts.barCentre;
    const above = points && stature !== undefined ? upperBody(points.hip, hand, stature) : null;
    return { posture: { ...contacts, leg: points, upperBody: above }, knee: ridden?.knee ?? null };
  };
  return { leg, found: onBike(found), left: onBike(left) };
}

type Contacts = Omit<SidePosture, 'leg' | 'upperBody'>;

/** Null unless the saddle's and the bars' places are measured. */
function contactsOf({ values }: PositionFacts, seatTubeAngleDeg: number): Contacts | null {
  const { saddleHeightMm, saddleSetbackMm, barReachMm, barDropMm, hoodReachMm, hoodDropMm } = values;
  if (saddleHeightMm == null || saddleSetbackMm == null || barReachMm == null || barDropMm == null)
    return null;
  const saddleTop = alongSeatTube(saddleHeightMm, seatTubeAngleDeg);
  const tip = { xMm: -saddleSetbackMm, yMm: saddleTop.yMm };
  const fromTip = (reachMm: number, dropMm: number): Point => ({
    xMm: tip.xMm + reachMm,
    yMm: tip.yMm - dropMm,
  });
  return {
    saddleTop,
    saddleTip: tip,
    barCentre: fromTip(barReachMm, barDropMm),
    hoods: hoodReachMm == null || hoodDropMm == null ? null : fromTip(hoodReachMm, hoodDropMm),
  };
}

function alongSeatTube(lengthMm: number, seatTubeAngleDeg: number): Point {
  const angle = (seatTubeAngleDeg * Math.PI) / 180;
  return { xMm: -lengthMm * Math.cos(angle), yMm: lengthMm * Math.sin(angle) };
}

function hipAsFound(
  { leg, pitch, kneeFlexionStraightestDeg }: LegFacts,
  seatTubeAngleDeg: number,
): Point | null {
  return orNull(
    () =>
      hipForKneeFlexion(leg, pitch, kneeFlexionStraightestDeg, { kind: 'along-seat-tube', seatTubeAngleDeg })
        .hip,
  );
}

function pedalling(
  { side, leg, pitch, cleatFromHeelMm }: LegFacts,
  hipFound: Point,
  { bike, shoe }: FitSheetFacts,
  { found, position }: { found: PositionFacts; position: PositionFacts },
): { points: SidePosture['leg']; knee: KneeTurn } | null {
  const back = cleatMovedBackMm(found, position, side);
  const ridden: Leg = {
    ...leg,
    footLeverMm: leg.footLeverMm - back,
    ankleAboveSpindleMm: leg.ankleAboveSpindleMm + shimAddedMm(found, position, side),
    crankLengthMm: position.values.crankLengthMm ?? leg.crankLengthMm,
  };
  const moved = hipMoved(found, position, bike.seatTubeAngleDeg);
  const hip = { xMm: hipFound.xMm + moved.xMm, yMm: hipFound.yMm + moved.yMm };
  return orNull(() => {
    const least = straightest(ridden, pitch, hip);
    const { knee, ankle, spindle, footPitchDeg } = legPoints(ridden, pitch, hip, least.crankDeg);
    const sole = (footPitchDeg * Math.PI) / 180;
    // The sole lies below the ankle by what is above the spindle less what is between spindle and sole; that is not
    // measured apart, so the sole is drawn through the spindle.
    const along = (mm: number): Point => ({
      xMm: spindle.xMm + mm * Math.cos(sole),
      yMm: spindle.yMm - mm * Math.sin(sole),
    });
    const cleatFromHeel = cleatFromHeelMm - back;
    return {
      points: {
        ...{ hip, knee, ankle, spindle },
        heel: along(-cleatFromHeel),
        toe: along(shoe.outerLengthMm - cleatFromHeel),
      },
      knee: { samples: revolution(ridden, pitch, hip, 120), straightest: least },
    };
  });
}

/** Positive backwards; 0 where it was not measured both times. */
export function cleatMovedBackMm(found: PositionFacts, left: PositionFacts, side: Side): number {
  const field = side === 'left' ? 'cleatBehindMth1LeftMm' : 'cleatBehindMth1RightMm';
  return (left.values[field] ?? 0) - (found.values[field] ?? left.values[field] ?? 0);
}

/** How far each foot's cleat was moved, rearward positive; without those not measured before and after. */
export const cleatChangesMm = (found: PositionFacts, left: PositionFacts): number[] =>
  (['cleatBehindMth1LeftMm', 'cleatBehindMth1RightMm'] as const).flatMap((field) => {
    const [before, after] = [found.values[field] ?? null, left.values[field] ?? null];
    return before === null || after === null ? [] : [after - before];
  });

function shimAddedMm(found: PositionFacts, left: PositionFacts, side: Side): number {
  const field = side === 'left' ? 'shimLeftMm' : 'shimRightMm';
  return (left.values[field] ?? 0) - (found.values[field] ?? left.values[field] ?? 0);
}

function hipMoved(found: PositionFacts, left: PositionFacts, seatTubeAngleDeg: number): Point {
  const raised = (left.values.saddleHeightMm ?? 0) - (found.values.saddleHeightMm ?? 0);
  const { saddleSetbackMm: before } = found.values;
  const { saddleSetbackMm: after } = left.values;
  return { xMm: -((after ?? 0) - (before ?? 0)), yMm: alongSeatTube(raised, seatTubeAngleDeg).yMm };
}

/** Null for a geometry that cannot be; anything else is a fault and stays one. */
function orNull<T>(work: () => T): T | null {
  try {
    return work();
  } catch (error) {
    if (error instanceof FitMathError) return null;
    throw error;
  }
}
