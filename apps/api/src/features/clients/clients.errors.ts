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
