import type { Activity } from '@studio/clinical-flags';
import type { Caution, PositionFieldId, Uncertain } from '@studio/fit-math';
import type { CalculationName, Calculations } from '../calculations/index.js';
import type { SessionFacts, Side } from './facts.js';

export interface PlanOption {
  readonly id: string;
  readonly feasible: boolean;
  /** Why not. */
  readonly reasons: readonly Caution[];
  /** What the screening must permit for it. */
  readonly asks: readonly Activity[];
}

/** A figure of the position as an option lets expect it: as such, or as a change of what was found. */
export interface Prediction {
  readonly field: PositionFieldId;
  readonly as: 'value' | 'change';
  /** The standard deviation is that of the computation; null: the formula gives none. */
  readonly predicted: Pick<Uncertain, 'value'> & { readonly sd: number | null };
}

export interface PlanContext {
  readonly side: Side | null;
  readonly saddleOffsetMm: number;
}

type Input<Name extends CalculationName> = Calculations[Name]['input'];
type Result<Name extends CalculationName> = Calculations[Name]['result'];
/** Of objects within the input the record may know a part. */
type Partly<T> = { readonly [Key in keyof T]?: Partial<T[Key]> };

/** How a kind of plan comes about: what the record knows of a calculator's input, and what the result offers. */
export interface PlanKindOf<Name extends CalculationName> {
  readonly calculation: Name;
  readonly sided: boolean;
  /**
   * @param added which inputs the fitter adds
   * @throws NotMeasuredYet
   */
  readonly fromRecord: (
    facts: SessionFacts,
    side: Side | null,
    added: readonly string[],
  ) => Partly<Input<Name>>;
  /** Whose foot pitch is among what the record knows; absent: nobody's. */
  readonly legs?: (side: Side | null, added: readonly string[]) => readonly Side[];
  readonly options: (result: Result<Name>) => readonly PlanOption[];
  readonly predicts?: (result: Result<Name>, optionId: string, context: PlanContext) => readonly Prediction[];
}

/** The kind with its calculator's types forgotten, for who handles all kinds alike. */
export type AnyPlanKind = Omit<PlanKindOf<never>, 'calculation'> & { readonly calculation: CalculationName };

export const planKindOf = <Name extends CalculationName>(kind: PlanKindOf<Name>): AnyPlanKind =>
  kind as unknown as AnyPlanKind;

/** The leg of a plan that has a side. */
export const ownLeg = (side: Side | null): readonly Side[] => (side === null ? [] : [side]);

/** A result that offers one thing: to do it. */
export const asComputed = (...asks: Activity[]): readonly PlanOption[] => [
  { id: 'as_computed', feasible: true, reasons: [], asks },
];
