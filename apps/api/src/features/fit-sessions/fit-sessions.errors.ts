import { ApiError, type FieldProblem } from '../../http/problem.js';

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

/** Of a batch nothing is kept; each fault is named by its item. */
export class MeasurementsRefused extends ApiError {
  readonly code = 'fit-sessions.measurements-refused';
  readonly status = 422;
  readonly title = 'Some measurements cannot be taken, so none was';

  constructor(errors: FieldProblem[]) {
    super(undefined, { errors });
  }
}

export class TimerState extends ApiError {
  readonly code = 'fit-sessions.timer';
  readonly status = 409;
  readonly title = 'The timer of the stage does not allow that';

  constructor(allowed: 'start' | 'stop') {
    super(allowed === 'stop' ? 'It runs already.' : 'It does not run.', { allowed: [allowed] });
  }
}

export class StopsBeforeStart extends ApiError {
  readonly code = 'fit-sessions.stops-before-start';
  readonly status = 422;
  readonly title = 'A timer cannot stop before it started';

  constructor() {
    super(undefined, { errors: [{ field: 'at', message: 'must not lie before the start' }] });
  }
}

/** One change at a time lets the rider say what it did; several at once are marked as such. */
export class SeveralNotMarked extends ApiError {
  readonly code = 'fit-sessions.several-at-once';
  readonly status = 422;
  readonly title = 'One change at a time, unless several are marked to be at once';

  constructor(several: boolean) {
    const message = several ? 'must be true for more than one item' : 'must be false for one item';
    super(undefined, { errors: [{ field: 'severalAtOnce', message }] });
  }
}

/** The client chose an id that another session of the studio has. */
export class IdTaken extends ApiError {
  readonly code = 'fit-sessions.id-taken';
  readonly status = 409;
  readonly title = 'The id belongs to another session';
}

export class OperationIdReused extends ApiError {
  readonly code = 'fit-sessions.operation-id-reused';
  readonly status = 422;
  readonly title = 'The id belongs to another operation';
}

export class SequenceReused extends ApiError {
  readonly code = 'fit-sessions.sequence-reused';
  readonly status = 422;
  readonly title = 'The device has counted another operation by that number';
}

export class SequenceTooFar extends ApiError {
  readonly code = 'fit-sessions.sequence-too-far';
  readonly status = 422;
  readonly title = 'The count is too far ahead of what has come';

  constructor(settledUpTo: number) {
    super(undefined, { settledUpTo });
  }
}

export class PayloadUnreadable extends ApiError {
  readonly code = 'fit-sessions.payload-unreadable';
  readonly status = 422;
  readonly title = 'The payload holds NUL or half of a surrogate pair, or is nested too deep';
}
