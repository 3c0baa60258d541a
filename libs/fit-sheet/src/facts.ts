import type {
  CleatPlan,
  CleatPlanInput,
  HolePattern,
  MeasurementKindId,
  PositionFigures,
} from '@studio/fit-math';
import type { Side } from './side.js';
import type { SheetLanguage } from './words/index.js';

import type { Fixing, ShoeWorkState } from '@studio/shoe-work';

export type { Side };

/** Mounted parts of a position, by kind; null: not looked at. */
export interface PositionFacts extends PositionFigures {
  readonly hardware: Readonly<Record<Side, readonly string[] | null>>;
}

export interface PlanFacts {
  readonly side: Side;
  readonly inputs: CleatPlanInput;
  readonly result: CleatPlan;
  /** What the studio's own offset adds to the computed saddle change. */
  readonly saddleOffsetMm: number;
  readonly chosenWay: string | null;
  readonly chosenBecause: string | null;
}

export interface MeasurementFacts {
  readonly kind: MeasurementKindId;
  readonly side: Side | null;
  readonly method: string;
  readonly mean: number;
  readonly error: number;
}

/** A case of work on soles. */
export interface ShoeWorkSheetFacts {
  /** The name of the pair. */
  readonly shoe: string;
  readonly way: string;
  readonly fixing: Fixing;
  readonly state: ShoeWorkState;
  readonly consent: { readonly signedName: string; readonly on: string; readonly textVersion: string } | null;
  /** The day a sole was first changed for good; null: none was. */
  readonly begunOn: string | null;
  readonly curesUntil: string | null;
  /** At the hand-over, and again after the first ride. */
  readonly torqueNm: Readonly<Record<Side, { readonly first: number | null; readonly again: number | null }>>;
  readonly abandonedBecause: string | null;
}

/** Everything a fit sheet is made from, as the record has it. */
export interface FitSheetFacts {
  readonly studio: string;
  readonly rider: string;
  readonly fitter: string;
  readonly bike: { readonly name: string; readonly crankLengthMm: number; readonly seatTubeAngleDeg: number };
  readonly shoe: {
    readonly name: string;
    readonly outerLengthMm: number;
    readonly holePattern: HolePattern;
    readonly slotFrontFromHeelMm: number;
    readonly slotRearFromHeelMm: number;
  };
  /** Days at the studio, like 2026-03-02. */
  readonly visitOn: string;
  readonly signedOn: string | null;
  readonly contentHash: string | null;
  readonly found: PositionFacts | null;
  readonly left: PositionFacts | null;
  /** The newest of each kind and side. */
  readonly measurements: readonly MeasurementFacts[];
  /** The newest of each side. */
  readonly plans: readonly PlanFacts[];
  readonly shoeWorks: readonly ShoeWorkSheetFacts[];
  /** Foot pitch over the turn from captured motion, where there is one, by side. */
  readonly footPitch: Readonly<Partial<Record<Side, readonly number[]>>>;
  /** Days on which the rider will be asked how it goes. */
  readonly nextOn: readonly string[];
  /** What the rider is told of the first weeks; null: nobody wrote it down, and it follows from the change. */
  readonly advice: readonly string[] | null;
  readonly amendments: readonly {
    readonly on: string;
    readonly writtenBy: string;
    readonly text: string;
  }[];
}

export interface SheetOptions {
  /** The studio's own has what was measured, computed and signed besides. */
  readonly audience: 'rider' | 'studio';
  readonly lengths: 'mm' | 'mm_and_inch';
  readonly language: SheetLanguage;
}
