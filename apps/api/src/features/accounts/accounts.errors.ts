import { ApiError } from '../../http/problem.js';

export class NotSetUp extends ApiError {
  readonly code = 'accounts.not-set-up';
  readonly status = 409;
  readonly title = 'The owner has not said yet how the studio sells';
}

export class AlreadySetUp extends ApiError {
  readonly code = 'accounts.already-set-up';
  readonly status = 409;
  readonly title = 'The studio has its settings already; change them';
}

export class RatesOverlap extends ApiError {
  readonly code = 'accounts.rates-overlap';
  readonly status = 409;
  readonly title = 'The tax class has a rate on some of these days already';
}

export class NameTaken extends ApiError {
  readonly code = 'accounts.name-taken';
  readonly status = 409;
  readonly title = 'The price list has a part of that name already';
}

/** Well formed, but not something that can be sold; names the input. */
export class CannotBePriced extends ApiError {
  readonly code = 'accounts.cannot-be-priced';
  readonly status = 422;
  readonly title = 'That cannot be priced';

  constructor(field: string, message: string) {
    super(undefined, { errors: [{ field, message }] });
  }
}

export type DocumentAction = 'change' | 'issue' | 'discard' | 'make_receipt' | 'credit';

export class DocumentNotPossible extends ApiError {
  readonly code = 'accounts.not-possible';
  readonly status = 409;
  readonly title = 'The state of the document does not allow it';

  constructor(state: string, allowed: readonly DocumentAction[]) {
    super(undefined, { state, allowed });
  }
}

/** More money than is there to be paid, credited or given back. */
export class MoreThanIsLeft extends ApiError {
  readonly code = 'accounts.more-than-is-left';
  readonly status = 409;
  readonly title = 'That is more than is left';

  constructor(field: string, leftMinor: number) {
    super(undefined, { errors: [{ field, message: `at most ${leftMinor} is left` }], leftMinor });
  }
}

export class PaymentNotPossible extends ApiError {
  readonly code = 'accounts.payment-not-possible';
  readonly status = 409;
  readonly title = 'That record of money cannot be made';

  constructor(field: string, message: string) {
    super(undefined, { errors: [{ field, message }] });
  }
}
