import type { OfferState, WishState } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { offerActionsIn, wishActionsIn } from './states.js';

export class WishActionImpossible extends ApiError {
  readonly code = 'waiting-list.not-possible';
  readonly status = 409;
  readonly title = 'The state of the wish does not allow this';

  constructor(state: WishState) {
    super(undefined, { state, allowed: wishActionsIn(state) });
  }
}

export class OfferAnswered extends ApiError {
  readonly code = 'slot-offers.not-open';
  readonly status = 409;
  readonly title = 'The offer is not open any more';

  constructor(readonly state: OfferState) {
    super(undefined, { state, allowed: offerActionsIn(state) });
  }
}
