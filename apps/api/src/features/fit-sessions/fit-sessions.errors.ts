import { ApiError } from '../../http/problem.js';

export class SessionSigned extends ApiError {
  readonly code = 'fit-sessions.signed';
  readonly status = 409;
  readonly title = 'The session is signed and final; add an amendment instead';
}

export class SessionNotSigned extends ApiError {
  readonly code = 'fit-sessions.not-signed';
  readonly status = 409;
  readonly title = 'The session is still open; change it directly';
}

export class SessionIncomplete extends ApiError {
  readonly code = 'fit-sessions.incomplete';
  readonly status = 409;
  readonly title = 'Something is missing before the session can be signed';

  constructor(missing: string[]) {
    super(`Missing: ${missing.join(', ')}.`, { missing });
  }
}

export class MeasurementsMissing extends ApiError {
  readonly code = 'fit-sessions.measurements-missing';
  readonly status = 422;
  readonly title = 'Measure first what the plan is computed from';

  constructor(kinds: readonly string[]) {
    super(undefined, {
      errors: kinds.map((kind) => ({ field: kind, message: 'is not measured in this session on this side' })),
    });
  }
}

export class WrongSide extends ApiError {
  readonly code = 'fit-sessions.side';
  readonly status = 422;
  readonly title = 'The measurement and the side do not go together';

  constructor(sided: boolean) {
    super(undefined, {
      errors: [
        { field: 'side', message: sided ? 'is needed for this kind' : 'must be left out for this kind' },
      ],
    });
  }
}

export class OptionNotFeasible extends ApiError {
  readonly code = 'fit-sessions.option-not-feasible';
  readonly status = 409;
  readonly title = 'The plan does not offer that for this shoe';
}

/** Somebody else wrote a newer version of the same thing; `standing` is what it says, for whoever may read the session. */
export class ChangedMeanwhile extends ApiError {
  readonly code = 'fit-sessions.changed-meanwhile';
  readonly status = 409;
  readonly title = 'Somebody wrote a newer version in the meantime; read it and decide';

  constructor(
    standingVersion: number,
    readonly standing: object | null,
  ) {
    super(undefined, { standingVersion });
  }
}
