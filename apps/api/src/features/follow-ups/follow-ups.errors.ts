import { following, type FollowUpState } from '@studio/follow-up-plans';
import { ApiError } from '../../http/problem.js';
import { LinkClosed } from '../intake-pages/index.js';

export class FollowUpAnswered extends LinkClosed {
  readonly code = 'follow-ups.answered';
  readonly title = 'You have answered already';
  readonly whatNow = 'The studio has your answers. If something changed since, please tell the studio.';
}

export class FollowUpCalledOff extends LinkClosed {
  readonly code = 'follow-ups.called-off';
  readonly title = 'The studio does not ask this any more';
  readonly whatNow = 'If you want to tell the studio how it goes, please call or write to it.';
}

export class FollowUpRunOut extends LinkClosed {
  readonly code = 'follow-ups.run-out';
  readonly title = 'This link has run out';
  readonly whatNow = 'If you want to tell the studio how it goes, please call or write to it.';
}

export class SessionNotSigned extends ApiError {
  readonly code = 'follow-ups.session-not-signed';
  readonly status = 409;
  readonly title = 'A session is followed up once it is signed';
}

export class ActivitiesFixed extends ApiError {
  readonly code = 'follow-ups.activities-fixed';
  readonly status = 409;
  readonly title = 'The session is signed: what the rider named stays';
}

export class StateImpossible extends ApiError {
  readonly code = 'follow-ups.state';
  readonly status = 409;
  readonly title = 'The state of the follow-up does not allow it';

  constructor(state: FollowUpState) {
    super(`It is ${state}.`, { state, allowed: following[state] });
  }
}

export class MayNotBeAsked extends ApiError {
  readonly code = 'follow-ups.may-not-be-asked';
  readonly status = 409;
  readonly title = 'The client may not be asked: a consent is missing';
}

export class DayIsOver extends ApiError {
  readonly code = 'follow-ups.day-is-over';
  readonly status = 422;
  readonly title = 'A follow-up is due on a day to come';

  constructor() {
    super(undefined, { errors: [{ field: 'dueOn', message: 'is over, or its hours are' }] });
  }
}

export class AlreadyPromised extends ApiError {
  readonly code = 'follow-ups.already-promised';
  readonly status = 409;
  readonly title = 'A follow-up was added for that day already';
}

export class PlanNameTaken extends ApiError {
  readonly code = 'follow-up-plans.name-taken';
  readonly status = 409;
  readonly title = 'There is a plan of this name; change it, or take another name';
}

export class PlanImpossible extends ApiError {
  readonly code = 'follow-up-plans.impossible';
  readonly status = 422;
  readonly title = 'A plan cannot be followed like that';

  constructor(errors: readonly { field: string; message: string }[]) {
    super(undefined, { errors });
  }
}
