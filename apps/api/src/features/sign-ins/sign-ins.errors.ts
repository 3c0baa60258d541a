import { ApiError } from '../../http/problem.js';

/** The same answer whatever was wrong: it must not tell whether a studio or an address exists. */
export class SignInRefused extends ApiError {
  readonly code = 'sign-ins.refused';
  readonly status = 401;
  readonly title = 'Studio, address or password is wrong';
}

export class RefreshRefused extends ApiError {
  readonly code = 'sign-ins.refresh-refused';
  readonly status = 401;
  readonly title = 'Sign in again';
}
