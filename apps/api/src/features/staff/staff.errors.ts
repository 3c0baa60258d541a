import { ApiError } from '../../http/problem.js';

export class LastOwner extends ApiError {
  readonly code = 'staff.last-owner';
  readonly status = 409;
  readonly title = 'A studio keeps an owner who may sign in';
}

export class HasPassword extends ApiError {
  readonly code = 'staff.has-password';
  readonly status = 409;
  readonly title = 'That person has chosen a password; they can ask for another themselves';
}

export class StaffEmailTaken extends ApiError {
  readonly code = 'staff.email-taken';
  readonly status = 409;
  readonly title = 'Somebody of this studio signs in with that address already';
}
