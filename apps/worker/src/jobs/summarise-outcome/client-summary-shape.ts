import type { ChangeVerdict } from '@studio/outcome-stats';
import type { Report } from './outcome-inputs.js';

export type JudgedMeasure = 'pain' | 'comfort' | 'power_20_min_w';

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

export interface ClientSummary {
  readonly measures: readonly MeasureSummary[];
  readonly numbness: {
    readonly before: boolean | null;
    readonly after: boolean | null;
    readonly verdict: ChangeVerdict;
  };
  /** Null without a chosen plan or a position left. */
  readonly saddle: SaddleSummary | null;
  /** Week 0 is before anything was changed. */
  readonly course: readonly (Report & { readonly week: number })[];
  /** For the fitter to send. */
  readonly text: string;
}
