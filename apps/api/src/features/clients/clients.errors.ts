import { ApiError } from '../../http/problem.js';

export class ConsentStands extends ApiError {
  readonly code = 'clients.consent-stands';
  readonly status = 409;
  readonly title = 'This consent stands already';
}

export class ConsentMissing extends ApiError {
  readonly code = 'clients.consent-missing';
  readonly status = 409;
  readonly title = 'The client has not consented to this';
}

export class GuardianMissing extends ApiError {
  readonly code = 'clients.guardian-missing';
  readonly status = 409;
  readonly title = 'The client is a minor: a guardian has to consent';
}

export class GuardianIsNoAdult extends ApiError {
  readonly code = 'clients.guardian-is-no-adult';
  readonly status = 422;
  readonly title = 'A guardian is another client, and of age';

  constructor() {
    super(undefined, { errors: [{ field: 'guardianId', message: 'names the client itself or a minor' }] });
  }
}
