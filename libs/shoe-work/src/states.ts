import type { Step } from './procedure.js';

export const shoeWorkStates = [
  'opened',
  'consented',
  'in_work',
  'curing',
  'to_collect',
  'collected',
  'done',
  'abandoned',
] as const;
export type ShoeWorkState = (typeof shoeWorkStates)[number];

/**
 * What may follow what. `curing` becomes `to_collect` when its time has come, without anybody writing it down; what turns
 * out not to have cured cures on. To be collected is not to be ridden: the bolts and the release are checked with the rider
 * at the hand-over, and only then it is `collected`.
 */
export const following: Readonly<Record<ShoeWorkState, readonly ShoeWorkState[]>> = {
  opened: ['consented', 'abandoned'],
  consented: ['in_work', 'abandoned'],
  in_work: ['curing', 'to_collect', 'abandoned'],
  curing: ['curing', 'to_collect', 'abandoned'],
  to_collect: ['curing', 'collected', 'abandoned'],
  collected: ['done', 'abandoned'],
  done: [],
  abandoned: [],
};

/** Which steps may be written down in a state; in none of the others any. */
export const stageIn: Readonly<Partial<Record<ShoeWorkState, Step['stage']>>> = {
  consented: 'work',
  in_work: 'work',
  to_collect: 'hand_over',
  collected: 'riding',
};
