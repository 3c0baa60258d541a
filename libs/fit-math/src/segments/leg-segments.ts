import type { Caution } from '../cautions.js';
import type { Leg } from '../leg-chain/leg.js';
import type { Uncertain } from '../uncertainty.js';

/** The leg above the crank, ready for the leg chain, each length with its standard deviation. */
export interface LegSegments extends Readonly<Record<Exclude<keyof Leg, 'crankLengthMm'>, Uncertain>> {
  readonly formulaVersion: string;
  /** `stature` marks a fall-back: guessed from the rider's height, not measured on the leg. */
  readonly origin: 'measured' | 'stature';
  readonly cautions: readonly Caution[];
}
