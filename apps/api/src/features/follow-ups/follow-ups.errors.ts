import { ApiError } from '../../http/problem.js';

export class LinkSpent extends ApiError {
  readonly code = 'follow-ups.link-spent';
  readonly status = 410;
  readonly title = 'The link was used or has run out';
}
