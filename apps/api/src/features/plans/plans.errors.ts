import { ApiError } from '../../http/problem.js';

export class NotMeasuredYet extends ApiError {
  readonly code = 'plans.not-measured-yet';
  readonly status = 422;
  readonly title = 'Measure first what the plan is computed from';

  constructor(what: readonly string[]) {
    super(undefined, {
      errors: what.map((field) => ({ field, message: 'is not measured in this session' })),
    });
  }
}

/** A plan of one leg needs its side, a plan of the whole rider has none. */
export class PlanSide extends ApiError {
  readonly code = 'plans.side';
  readonly status = 422;
  readonly title = 'The plan and the side do not go together';

  constructor(sided: boolean) {
    const message = sided ? 'is needed for this kind' : 'must be left out for this kind';
    super(undefined, { errors: [{ field: 'side', message }] });
  }
}

export class OptionNotOffered extends ApiError {
  readonly code = 'plans.option-not-offered';
  readonly status = 409;
  readonly title = 'The plan does not offer that';

  constructor(why: string | undefined, offered: readonly string[]) {
    super(why, { offered });
  }
}

export class AlreadyChosen extends ApiError {
  readonly code = 'plans.already-chosen';
  readonly status = 409;
  readonly title = 'An option of this plan is chosen and stays; make a new plan to choose another';
}
