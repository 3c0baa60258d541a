import type { RightsRequestState } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { following } from './states.js';

export class RightsStepImpossible extends ApiError {
  readonly code = 'rights.step-impossible';
  readonly status = 409;
  readonly title = 'The request is not at a point where that can follow';

  constructor(state: RightsRequestState) {
    super(undefined, { state, allowed: following[state] });
  }
}

export class ExtendedAlready extends ApiError {
  readonly code = 'rights.extended-already';
  readonly status = 409;
  readonly title = 'The time to answer was extended already, and is once';
}

export class NotAboutACopy extends ApiError {
  readonly code = 'rights.not-about-a-copy';
  readonly status = 409;
  readonly title = 'This request asks for no copy';
}

export class CopyMissing extends ApiError {
  readonly code = 'rights.copy-missing';
  readonly status = 409;
  readonly title = 'There is no copy yet to hand over';
}

export class CopyNotThere extends ApiError {
  readonly code = 'rights.copy-not-there';
  readonly status = 409;
  readonly title = 'This copy is not made yet, or was removed';
}

export class MayNotBeMailed extends ApiError {
  readonly code = 'rights.may-not-be-mailed';
  readonly status = 409;
  readonly title = 'The client has no mail address that may be written to: hand the copy over';
}

export class RetentionUndecided extends ApiError {
  readonly code = 'rights.retention-undecided';
  readonly status = 409;
  readonly title = 'Say first by which law the studio keeps records';
}

export class VisitsBooked extends ApiError {
  readonly code = 'rights.visits-booked';
  readonly status = 409;
  readonly title = 'Visits are booked still: cancel them first';

  constructor(appointmentIds: readonly string[]) {
    super(undefined, { appointmentIds });
  }
}

export class NotRestricted extends ApiError {
  readonly code = 'rights.not-restricted';
  readonly status = 409;
  readonly title = 'The record is not restricted, or waits to be erased';
}
