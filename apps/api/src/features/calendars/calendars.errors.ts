import { ApiError } from '../../http/problem.js';

export class FeedRevoked extends ApiError {
  readonly code = 'calendar-feeds.revoked';
  readonly status = 409;
  readonly title = 'The feed was stopped; make another';
}

/** To a program that still asks: do not come back (RFC 9110, 15.5.11). */
export class FeedGone extends ApiError {
  readonly code = 'calendar-feeds.gone';
  readonly status = 410;
  readonly title = 'This calendar was stopped';
}
