import { ApiError } from '../../http/problem.js';

export class TooManyEndpoints extends ApiError {
  readonly code = 'webhooks.too-many-endpoints';
  readonly status = 409;
  readonly title = 'The studio has as many endpoints as it may have';
}

export class ReplayImpossible extends ApiError {
  readonly code = 'webhooks.replay-impossible';
  readonly status = 409;
  readonly title = 'The delivery cannot be made again now';

  constructor(because: 'still_waiting' | 'endpoint_disabled') {
    super(undefined, { because });
  }
}
