import { ApiError } from '../../http/problem.js';
import type { OrderState } from './queues.queries.js';

export type FailedOrderStep = 'retry' | 'discard';

/** What may be done to an order in each state. */
export const stepsIn: Readonly<Record<OrderState, readonly FailedOrderStep[]>> = {
  open: [],
  done: [],
  failed: ['retry', 'discard'],
  discarded: ['retry'],
};

export class StepImpossible extends ApiError {
  readonly code = 'failed-orders.step-impossible';
  readonly status = 409;
  readonly title = 'The order is not at a point where that can follow';

  constructor(state: OrderState) {
    super(undefined, { state, allowed: stepsIn[state] });
  }
}
