import { shoes, stepsFor, type Procedure, type Shoe, type Step } from './procedure.js';
import { following, stageIn, type ShoeWorkState } from './states.js';
import { isBonded, type Fixing } from './ways.js';

export interface DoneStep {
  readonly step: string;
  readonly shoe: Shoe;
}

/** What is to be done of a stage and is not, of both shoes, in order. */
export const missingSteps = (
  procedure: Procedure,
  fixing: Fixing,
  done: readonly DoneStep[],
  stage: Step['stage'],
): DoneStep[] =>
  stepsFor(procedure, fixing)
    .filter((step) => step.stage === stage)
    .flatMap(({ id }) => shoes.map((shoe) => ({ step: id, shoe })))
    .filter(({ step, shoe }) => !done.some((item) => item.step === step && item.shoe === shoe));

/** What may be written down next: of each shoe the first step that is not done, if its stage has come. */
export function possibleSteps(
  procedure: Procedure,
  { state, fixing }: { readonly state: ShoeWorkState; readonly fixing: Fixing },
  done: readonly DoneStep[],
): DoneStep[] {
  const stage = stageIn[state];
  if (stage === undefined) return [];
  const missing = missingSteps(procedure, fixing, done, stage);
  return shoes.flatMap((shoe) => missing.find((item) => item.shoe === shoe) ?? []);
}

/** The states a case may come to now, its steps considered: what is missing is in the way, and so is what came after. */
export function reachableStates(
  procedure: Procedure,
  { state, fixing }: { readonly state: ShoeWorkState; readonly fixing: Fixing },
  done: readonly DoneStep[],
): readonly ShoeWorkState[] {
  const missing = (stage: Step['stage']): number => missingSteps(procedure, fixing, done, stage).length;
  const handOverBegun = missing('hand_over') < missingSteps(procedure, fixing, [], 'hand_over').length;
  return following[state].filter((next) => {
    switch (next) {
      case 'curing':
        return isBonded(fixing) && missing('work') === 0 && !handOverBegun;
      case 'to_collect':
        return !isBonded(fixing) || state === 'curing';
      case 'collected':
        return missing('hand_over') === 0;
      default:
        return true;
    }
  });
}
