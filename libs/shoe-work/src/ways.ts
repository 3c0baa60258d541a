import { cleatWays, type CleatWay } from '@studio/fit-math';

/** How the part comes to hold: `drilled` means drilled or cut. */
export const fixings = ['drilled', 'bonded', 'drilled_and_bonded'] as const;
export type Fixing = (typeof fixings)[number];

export const isBonded = (fixing: Fixing): boolean => fixing !== 'drilled';

/** A way of bringing the cleat back that changes the sole for good. */
export interface ShoeWorkWay {
  readonly way: CleatWay;
  readonly fixings: readonly Fixing[];
}

/** Slots are cut longer; a base lies on the sole and is bonded, bolted through, or both. Common practice, no source. */
export const shoeWorkWays: readonly ShoeWorkWay[] = cleatWays
  .filter(({ needsWholeArch }) => needsWholeArch)
  .map((way) => ({ way, fixings: way.reach === 'midfoot' ? fixings : ['drilled'] }));
