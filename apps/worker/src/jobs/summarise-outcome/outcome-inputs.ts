import type { Plan, Position } from '@studio/database';
import type { CleatPlan, CleatPlanInput, FootPitch } from '@studio/fit-math';

/** What was reported at one time; null where nothing was. */
export interface Report {
  readonly pain: number | null;
  readonly comfort: number | null;
  readonly numbness: boolean | null;
  readonly power20MinW: number | null;
}

/** Of a cleat plan, what an outcome speaks of. */
export interface PlanFacts {
  readonly side: 'left' | 'right';
  readonly formulaVersion: string;
  /** Saddle change of the option that was chosen, by the formula; null when none was. */
  readonly saddleChangeMm: { readonly value: number; readonly sd: number } | null;
  readonly saddleOffsetMm: number;
  readonly footPitchDeg: number;
  readonly mth1FromHeelMm: number;
  readonly midfootFromHeelMm: number;
}

/** Null: not measured. */
export interface PositionFacts {
  readonly saddleHeightMm: number | null;
  readonly cleatBehindMth1LeftMm: number | null;
  readonly cleatBehindMth1RightMm: number | null;
}

/** Everything an outcome is worked out from, and nothing else. */
export interface OutcomeInputs {
  readonly baseline: Report | null;
  /** Oldest first. */
  readonly answers: readonly (Report & { readonly week: number })[];
  readonly found: PositionFacts | null;
  readonly left: PositionFacts | null;
  /** The newest plan of each side. */
  readonly plans: readonly PlanFacts[];
}

export const reportOf = ({ pain, comfort, numbness, power20MinW }: Report): Report => ({
  pain,
  comfort,
  numbness,
  power20MinW,
});

export const positionFacts = (position: Position): PositionFacts => ({
  saddleHeightMm: position.saddleHeightMm,
  cleatBehindMth1LeftMm: position.cleatBehindMth1LeftMm,
  cleatBehindMth1RightMm: position.cleatBehindMth1RightMm,
});

export function planFacts(row: Plan): PlanFacts {
  const result = row.result as CleatPlan;
  const inputs = row.inputs as CleatPlanInput;
  const chosen = result.options.find(({ way }) => way === row.chosenOption);
  return {
    side: row.side as 'left' | 'right',
    formulaVersion: row.formulaVersion,
    saddleChangeMm: chosen?.saddleHeightChangeMm ?? null,
    saddleOffsetMm: row.saddleOffsetMm,
    footPitchDeg: meanPitchDeg(inputs.rider.footPitch),
    mth1FromHeelMm: inputs.mth1FromHeelMm,
    midfootFromHeelMm: result.midfootFromHeelMm,
  };
}

const meanPitchDeg = (pitch: FootPitch): number =>
  pitch.kind === 'constant'
    ? pitch.pitchDeg
    : pitch.readingsDeg.reduce((sum, reading) => sum + reading, 0) / pitch.readingsDeg.length;
