import { feetFromBelow, kneeCurve, sideView, type Drawing, type FootFromBelow } from '@studio/drawings';
import { midfootFromHeelMm, type MeasurementKindId } from '@studio/fit-math';
import type { FitSheetFacts, PositionFacts, Side } from './facts.js';
import { cleatMovedBackMm, ridersOnBike } from './posture.js';
import type { SheetWords } from './words/index.js';

type Words = SheetWords['drawings'];

/** Bike and rider from the side; null where the contact points were not measured. */
export function sideDrawing(
  facts: FitSheetFacts,
  { found: before, left: after, side }: Words,
): Drawing | null {
  const { leg, found, left } = ridersOnBike(facts);
  if (!found && !left) return null;
  const bothReach = [found, left].every((one) => one === null || one.posture.leg !== null);
  return sideView({
    title: side.title,
    subtitle: facts.bike.name,
    found: found?.posture ?? null,
    left: left?.posture ?? null,
    words: {
      ...{ found: before, left: after, points: side.points },
      notes: [
        side.toScale,
        leg ? side.leg(leg.side) : side.noLeg,
        ...((found?.posture.upperBody ?? left?.posture.upperBody) ? [side.upperBody] : []),
        ...(leg && !bothReach ? [side.outOfReach] : []),
      ],
    },
  });
}

/** Knee flexion over the turn; null where no leg was measured. */
export function kneeDrawing(
  facts: FitSheetFacts,
  { found: before, left: after, knee }: Words,
): Drawing | null {
  const { leg, found, left } = ridersOnBike(facts);
  if (!leg || !(found?.knee ?? left?.knee)) return null;
  return kneeCurve({
    title: knee.title(leg.side),
    subtitle: knee.subtitle,
    found: found?.knee ?? null,
    left: left?.knee ?? null,
    words: { found: before, left: after, ...knee },
  });
}

/** The soles from below; null where no cleat's place is known. */
export function feetDrawing(
  facts: FitSheetFacts,
  { found: before, left: after, feet: words }: Words,
): Drawing | null {
  const feet = (['right', 'left'] as const).map((side) => footOf(facts, side));
  const known = feet.filter(({ found, left }) => found ?? left);
  if (known.length === 0) return null;
  return feetFromBelow({
    title: words.title,
    subtitle: facts.shoe.name,
    feet: known,
    words: { found: before, left: after, ...words },
  });
}

function footOf(facts: FitSheetFacts, side: Side): FootFromBelow {
  const { shoe, found, left } = facts;
  const measured = (kind: MeasurementKindId): number | null =>
    facts.measurements.find((item) => item.kind === kind && item.side === side)?.mean ?? null;
  const mth1FromHeelMm = measured('mth1_from_heel');
  const foundAt =
    facts.plans.find((plan) => plan.side === side)?.inputs.cleatFromHeelMm ??
    (found && fromHeel(found, side, { mth1FromHeelMm, shoeLengthMm: shoe.outerLengthMm })) ??
    measured('cleat_from_heel');
  const leftAt =
    left &&
    (foundAt !== null && found
      ? foundAt - cleatMovedBackMm(found, left, side)
      : fromHeel(left, side, { mth1FromHeelMm, shoeLengthMm: shoe.outerLengthMm }));
  const rotation = ({ values }: PositionFacts): number | null =>
    values[side === 'left' ? 'cleatRotationLeftDeg' : 'cleatRotationRightDeg'] ?? null;
  return {
    side,
    shoeLengthMm: shoe.outerLengthMm,
    midfootFromHeelMm: midfootFromHeelMm(shoe.outerLengthMm),
    mth1FromHeelMm,
    mth5FromHeelMm: measured('mth5_from_heel'),
    slotsFromHeelMm: { rear: shoe.slotRearFromHeelMm, front: shoe.slotFrontFromHeelMm },
    found: found && foundAt !== null ? { fromHeelMm: foundAt, rotationDeg: rotation(found) } : null,
    left: left && leftAt !== null ? { fromHeelMm: leftAt, rotationDeg: rotation(left) } : null,
  };
}

/** By its place from the joint, or else from the nose of the shoe. */
function fromHeel(
  { values }: PositionFacts,
  side: Side,
  { mth1FromHeelMm, shoeLengthMm }: { mth1FromHeelMm: number | null; shoeLengthMm: number },
): number | null {
  const behind = values[side === 'left' ? 'cleatBehindMth1LeftMm' : 'cleatBehindMth1RightMm'] ?? null;
  if (behind !== null && mth1FromHeelMm !== null) return mth1FromHeelMm - behind;
  const fromNose = values[side === 'left' ? 'cleatFromNoseLeftMm' : 'cleatFromNoseRightMm'] ?? null;
  return fromNose === null ? null : shoeLengthMm - fromNose;
}
