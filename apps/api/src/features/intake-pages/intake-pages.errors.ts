import { ApiError } from '../../http/problem.js';

/** Why a link no longer works; each says what its page tells the client. */
export abstract class LinkClosed extends ApiError {
  readonly status = 410;
  abstract readonly whatNow: string;
}

export class IntakeHandedIn extends LinkClosed {
  readonly code = 'intake-links.handed-in';
  readonly title = 'Your answers were handed in already';
  readonly whatNow = 'The studio has them. If something changed since, please tell the studio.';
}

export class IntakeRevoked extends LinkClosed {
  readonly code = 'intake-links.revoked';
  readonly title = 'This link was withdrawn';
  readonly whatNow =
    'Perhaps you were sent a newer one. What you had answered is kept; please ask the studio for a new link.';
}

export class IntakeRunOut extends LinkClosed {
  readonly code = 'intake-links.run-out';
  readonly title = 'This link has run out';
  readonly whatNow = 'What you had answered is kept. Please ask the studio for a new link to go on.';
}

export class IntakeNotOpen extends ApiError {
  readonly code = 'intake-links.not-open';
  readonly status = 409;
  readonly title = 'The link was handed in, withdrawn or has run out already';
}

export class NoAddress extends ApiError {
  readonly code = 'intake-links.no-address';
  readonly status = 409;
  readonly title = 'The client has no mail address';
}
