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

export class NotAFitterYet extends ApiError {
  readonly code = 'staff.not-a-fitter';
  readonly status = 409;
  readonly title = 'Only a fitter is marked as a clinician';
}

export class NoClinicianMark extends ApiError {
  readonly code = 'staff.no-clinician-mark';
  readonly status = 409;
  readonly title = 'No mark stands that could be ended';
}
