import { ApiError } from '../../http/problem.js';

export class StaffEmailTaken extends ApiError {
  readonly code = 'staff.email-taken';
  readonly status = 409;
  readonly title = 'Somebody of this studio signs in with that address already';
}
