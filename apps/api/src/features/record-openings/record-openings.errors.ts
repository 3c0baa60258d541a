import { ApiError } from '../../http/problem.js';

export class NothingToOpen extends ApiError {
  readonly code = 'record-openings.not-restricted';
  readonly status = 409;
  readonly title = 'The record is not restricted: read it as any other';
}
