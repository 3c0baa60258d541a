import type { ReferralState } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { following } from './states.js';

export class StepImpossible extends ApiError {
  readonly code = 'referrals.step-impossible';
  readonly status = 409;
  readonly title = 'The case is not at a point where that can follow';

  constructor(state: ReferralState) {
    super(undefined, { state, allowed: following[state] });
  }
}
