import type { FactKey } from './facts.js';
import type { Area, Permission, Route, Source } from './rule.js';

/** The licensed clinician who supplied values or a score, as kept with what follows from them. */
export interface Clinician {
  readonly name: string;
  readonly registration: string;
}

export type FindingResult = 'raised' | 'clear' | 'cannot_tell' | 'not_applicable';

export interface Finding {
  readonly ruleId: string;
  readonly ruleVersion: number;
  readonly area: Area;
  readonly result: FindingResult;
  readonly route: Route;
  readonly permission: Permission;
  /** The answers that led to the result, and no others; empty for what was never answered. */
  readonly because: readonly {
    readonly fact: FactKey;
    readonly answer: string | number | readonly string[];
  }[];
  /** What would have to be answered to tell; empty unless it cannot be told. */
  readonly openFacts: readonly FactKey[];
  /** The same result for the same answers as in the screening before: it is dealt with there. */
  readonly unchanged: boolean;
  /** The clinician whose values it rests on; absent when it rests on answers. */
  readonly suppliedBy?: Clinician;
  readonly messageForClient: string;
  readonly messageForStaff: string;
  readonly wouldChange: string;
  readonly source: Source;
}
