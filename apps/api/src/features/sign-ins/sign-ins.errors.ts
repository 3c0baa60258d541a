import { ApiError } from '../../http/problem.js';

/** The same answer whatever was wrong: it must not tell whether a studio or an address exists. */
export class SignInRefused extends ApiError {
  readonly code = 'sign-ins.refused';
  readonly status = 401;
  readonly title = 'Studio, address or password is wrong';
}

export class HeldOff extends ApiError {
  readonly code = 'sign-ins.held-off';
  readonly status = 429;
  readonly title = 'Too many tries; wait before the next';
  override readonly headers: Readonly<Record<string, string>>;

  constructor(seconds: number) {
    super(undefined, { retryAfterSeconds: seconds });
    this.headers = { 'retry-after': String(seconds) };
  }
}

export class SecondFactorNeeded extends ApiError {
  readonly code = 'sign-ins.second-factor-needed';
  readonly status = 401;
  readonly title = 'Give the code of your authenticator too, or a recovery code';
}

/** The password is right; `setUpToken` is good for setting the second factor up and for nothing else. */
export class SecondFactorToSetUp extends ApiError {
  readonly code = 'sign-ins.second-factor-to-set-up';
  readonly status = 401;
  readonly title = 'An owner signs in with a second factor; set it up first';

  constructor(setUpToken: string) {
    super(undefined, { setUpToken });
  }
}

export class WrongCode extends ApiError {
  readonly code = 'sign-ins.wrong-code';
  readonly status = 422;
  readonly title = 'That is not the code of now';
}

export class SecondFactorStands extends ApiError {
  readonly code = 'sign-ins.second-factor-stands';
  readonly status = 409;
  readonly title = 'A second factor is set up already; remove it first';
}

export class OwnersNeedSecondFactor extends ApiError {
  readonly code = 'sign-ins.owners-need-second-factor';
  readonly status = 409;
  readonly title = 'An owner signs in with a second factor';
}

export class RefreshRefused extends ApiError {
  readonly code = 'sign-ins.refresh-refused';
  readonly status = 401;
  readonly title = 'Sign in again';
}

export class WrongPassword extends ApiError {
  readonly code = 'sign-ins.wrong-password';
  readonly status = 422;
  readonly title = 'That is not your password';
}

export class PasswordLinkSpent extends ApiError {
  readonly code = 'password-links.spent';
  readonly status = 410;
  readonly title = 'This link was used or has run out; ask for another';
}
