import type { RideRecording } from '../ride-recording.js';
import type { CoursePass } from './course.js';
import { dragAreaOf, type Conditions, type DragAreaReason, type PedalPowerModel } from './drag-area.js';

export interface CourseRun {
  readonly ride: RideRecording;
  readonly pass: CoursePass;
  readonly conditions: Conditions;
  readonly model: PedalPowerModel;
}

export interface CourseSide {
  readonly runs: number;
  readonly meanDurationS: number;
  readonly meanSpeedMps: number;
  /** Null when no run knows its power. */
  readonly meanPowerW: number | null;
  /** Of the runs that carry one. */
  readonly dragAreasM2: readonly number[];
}

export interface DragComparison {
  /** After minus before. */
  readonly changeM2: number;
  /** From one run to the next of the same position. */
  readonly runToRunSdM2: number;
  /** Changes below this are within run-to-run error, at 95 %. */
  readonly detectableM2: number;
  readonly verdict: 'less drag' | 'more drag' | 'no real change';
}

export interface CourseComparison {
  readonly method: 'same course, same direction';
  readonly before: CourseSide;
  readonly after: CourseSide;
  readonly drag: DragComparison | null;
  /** Why runs carry no drag area, each reason once. */
  readonly reasons: readonly DragAreaReason[];
  readonly sentence: string;
}

/**
 * Repeated runs of one rider on the road: pooled standard deviation within five positions, three runs each.
 *
 * @source open data of the repository SportsEngineering/forearms-advantage-model, recomputed
 */
export const publishedRunToRunSdM2 = 0.01125;

/**
 * Runs over one course before and after a change. Times and speeds are only as comparable as the days were; drag is
 * compared where both sides carry it, against the larger of the published and the runs' own run-to-run error.
 *
 * @param before one run or more
 * @param after one run or more
 * @throws RangeError when a side has no run
 * @example compareOnCourse([runBefore], [runAfter]).sentence;
 */
export function compareOnCourse(before: readonly CourseRun[], after: readonly CourseRun[]): CourseComparison {
  if (before.length === 0 || after.length === 0) throw new RangeError('both sides need a run');
  const estimated = [before, after].map((runs) =>
    runs.map(({ ride, pass, conditions, model }) => dragAreaOf(ride, pass, conditions, model)),
  );
  const reasons = [...new Set(estimated.flat().map(({ reason }) => reason))].filter(
    (reason) => reason !== null,
  );
  const [areasBefore = [], areasAfter = []] = estimated.map((areas) =>
    areas.map(({ dragAreaM2 }) => dragAreaM2).filter((area) => area !== null),
  );
  const sides = { before: sideOf(before, areasBefore), after: sideOf(after, areasAfter) };
  const drag = compareDrag(areasBefore, areasAfter);
  return {
    method: 'same course, same direction',
    ...sides,
    drag,
    reasons,
    sentence: sentence(sides, drag, reasons),
  };
}

function sideOf(runs: readonly CourseRun[], dragAreasM2: readonly number[]): CourseSide {
  const passes = runs.map(({ pass }) => pass);
  const powers = passes.map(({ meanPowerW }) => meanPowerW).filter((power) => power !== null);
  return {
    runs: runs.length,
    meanDurationS: mean(passes.map(({ durationS }) => durationS)),
    meanSpeedMps: mean(passes.map(({ meanSpeedMps }) => meanSpeedMps)),
    meanPowerW: powers.length === 0 ? null : mean(powers),
    dragAreasM2,
  };
}

function compareDrag(before: readonly number[], after: readonly number[]): DragComparison | null {
  if (before.length === 0 || after.length === 0) return null;
  const changeM2 = mean(after) - mean(before);
  const runToRunSdM2 = Math.max(publishedRunToRunSdM2, pooledSd(before, after));
  const detectableM2 = 1.96 * runToRunSdM2 * Math.sqrt(1 / before.length + 1 / after.length);
  const isReal = Math.abs(changeM2) > detectableM2;
  const verdict = !isReal ? 'no real change' : changeM2 < 0 ? 'less drag' : 'more drag';
  return { changeM2, runToRunSdM2, detectableM2, verdict };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** 0 with one run on each side. */
function pooledSd(before: readonly number[], after: readonly number[]): number {
  const squares = [before, after].flatMap((side) => side.map((value) => (value - mean(side)) ** 2));
  const degreesOfFreedom = squares.length - 2;
  return degreesOfFreedom === 0
    ? 0
    : Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / degreesOfFreedom);
}

function sentence(
  { before, after }: Pick<CourseComparison, 'before' | 'after'>,
  drag: DragComparison | null,
  reasons: readonly DragAreaReason[],
): string {
  const power = ({ meanPowerW }: CourseSide): string =>
    meanPowerW === null ? 'unknown power' : `${meanPowerW.toFixed(0)} W`;
  const ridden =
    `Over the same course ${before.meanDurationS.toFixed(0)} s at ${power(before)} before, ` +
    `${after.meanDurationS.toFixed(0)} s at ${power(after)} after`;
  if (drag === null) return `${ridden}; what the position did to drag cannot be told: ${reasons.join('; ')}.`;
  return `${ridden}; ${drag.verdict}: drag area ${signed(drag.changeM2)} m², and up to ${drag.detectableM2.toFixed(3)} m² is run-to-run error.`;
}

const signed = (value: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(3)}`;
