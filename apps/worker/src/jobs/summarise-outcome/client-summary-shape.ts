import type { Feel } from '@studio/database';
import type { ChangeVerdict } from '@studio/outcome-stats';
import type { Report } from './outcome-inputs.js';

/** `global_change` is told against before the fit, so before is 0. */
export type JudgedMeasure = 'pain' | 'comfort' | 'power_20_min_w' | 'chosen_activities' | 'global_change';

export interface MeasureSummary {
  readonly measure: JudgedMeasure;
  readonly before: number | null;
  readonly after: number | null;
  /** After minus before. */
  readonly change: number | null;
  /** A change of this person below it is within the error of measuring; null: none published, or before not known. */
  readonly detectable: number | null;
  /** A change of this person below it does not matter; null as above. */
  readonly important: number | null;
  readonly verdict: ChangeVerdict;
}

export interface SaddleSummary {
  /** Formula and the studio's own offset; negative is lower. */
  readonly predictedMm: number;
  readonly sdMm: number;
  readonly leftMm: number;
  /** Left minus predicted. */
  readonly differenceMm: number;
  /** Within twice the error of the prediction. */
  readonly asPredicted: boolean;
}

export interface CoursePoint extends Report {
  readonly week: number;
  /** Mean of the rider's own activities that were told. */
  readonly chosenActivities: number | null;
  readonly overallChange: number | null;
}

export interface ClientSummary {
  readonly measures: readonly MeasureSummary[];
  readonly numbness: {
    readonly before: boolean | null;
    readonly after: boolean | null;
    readonly verdict: ChangeVerdict;
  };
  /** Told after the fit only, and without a published threshold: shown as it was told, not judged. */
  readonly told: {
    readonly walkingComfort: number | null;
    readonly sprintFeel: Feel | null;
    readonly standingFeel: Feel | null;
  };
  /** Null without a chosen plan or a position left. */
  readonly saddle: SaddleSummary | null;
  /** Week 0 is before anything was changed. */
  readonly course: readonly CoursePoint[];
  /** For the fitter to send. */
  readonly text: string;
}
