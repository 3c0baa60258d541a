import { ApiError } from '../../http/problem.js';

export class NameTaken extends ApiError {
  readonly code = 'premises.name-taken';
  readonly status = 409;
  readonly title = 'The studio has one of that name already';
}
