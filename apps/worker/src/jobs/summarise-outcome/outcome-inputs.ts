import type { Feel, Plan, Position } from '@studio/database';
import type { CleatPlan, CleatPlanInput, FootPitch } from '@studio/fit-math';

/** What was reported at one time; null where nothing was. */
export interface Report {
  readonly pain: number | null;
  readonly comfort: number | null;
  readonly numbness: boolean | null;
  readonly power20MinW: number | null;
}

/** What only a follow-up asks, against before the fit or of what was named then; null where it was not answered. */
export interface SinceTheFit {
  /** How well each activity the rider named goes, 0–10, in the order they were named. */
  readonly activities: readonly (number | null)[];
  readonly overallChange: number | null;
  readonly walkingComfort: number | null;
  readonly sprintFeel: Feel | null;
  readonly standingFeel: Feel | null;
}

export type Answer = Report & SinceTheFit & { readonly week: number };

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
  readonly crankLengthMm: number | null;
}

/** Everything an outcome is worked out from, and nothing else. */
export interface OutcomeInputs {
  readonly baseline: Report | null;
  /** How well what the rider named went before the fit, 0–10, in the order it was named. */
  readonly activitiesBefore: readonly number[];
  /** Oldest first. */
  readonly answers: readonly Answer[];
  readonly found: PositionFacts | null;
  readonly left: PositionFacts | null;
  /** The newest plan of each side. */
  readonly plans: readonly PlanFacts[];
  /** The option of the newest leg-length plan that was carried out. */
  readonly legLengthOption: string | null;
}

export const reportOf = ({ pain, comfort, numbness, power20MinW }: Report): Report => ({
  pain,
  comfort,
  numbness,
  power20MinW,
});

/** @param given the answers to one follow-up, by question */
export function sinceTheFit(given: ReadonlyMap<string, unknown>): SinceTheFit {
  const number = (question: string): number | null => {
    const answer = given.get(question);
    return answer === undefined ? null : Number(answer);
  };
  const feel = (question: string): Feel | null => (given.get(question) as Feel | undefined) ?? null;
  return {
    activities: [number('activity_1'), number('activity_2'), number('activity_3')],
    overallChange: number('overall_change'),
    walkingComfort: number('walking_comfort'),
    sprintFeel: feel('sprint_feel'),
    standingFeel: feel('standing_feel'),
  };
}

export const positionFacts = (position: Position): PositionFacts => ({
  saddleHeightMm: position.saddleHeightMm,
  cleatBehindMth1LeftMm: position.cleatBehindMth1LeftMm,
  cleatBehindMth1RightMm: position.cleatBehindMth1RightMm,
  crankLengthMm: position.crankLengthMm,
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
