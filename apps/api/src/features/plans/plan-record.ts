import type { Plan } from '@studio/database';
import type { FootPitchFrom } from './facts.js';
import { kindsOfPlan } from './plan-kinds.js';
import type { PlanResponse } from './plans.dto.js';

export type PlanRecord = Pick<
  Plan,
  | 'id'
  | 'fitSessionId'
  | 'kind'
  | 'side'
  | 'inputs'
  | 'added'
  | 'result'
  | 'formulaVersion'
  | 'saddleOffsetMm'
  | 'plannedBy'
  | 'chosenOption'
  | 'chosenBecause'
  | 'chosenBy'
> & {
  readonly footPitchFrom: FootPitchFrom[];
  readonly plannedAt: string;
  readonly chosenAt: string | null;
};

export function toPlan(record: PlanRecord): PlanResponse {
  const { chosenOption, chosenBecause, chosenBy, chosenAt, ...plan } = record;
  return {
    ...plan,
    options: kindsOfPlan[record.kind].options(record.result as never),
    choice:
      chosenOption === null
        ? null
        : { option: chosenOption, because: chosenBecause ?? '', chosenBy, chosenAt },
  };
}
