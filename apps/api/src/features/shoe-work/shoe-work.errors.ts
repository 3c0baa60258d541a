import type { DoneStep, Feasibility, ShoeWorkState } from '@studio/shoe-work';
import { ApiError } from '../../http/problem.js';

export class NotFeasible extends ApiError {
  readonly code = 'shoe-work.not-feasible';
  readonly status = 409;
  readonly title = 'These shoes cannot take that way';

  constructor({ reasons, missing }: Feasibility) {
    super(reasons.map(({ text }) => text).join(' '), { reasons, missing });
  }
}

export class CannotTell extends ApiError {
  readonly code = 'shoe-work.cannot-tell';
  readonly status = 409;
  readonly title = 'Whether these shoes can take that way cannot be told yet';

  constructor({ missing }: Feasibility) {
    super(missing.map(({ text }) => text).join(' '), { missing });
  }
}

export class NotFixedSo extends ApiError {
  readonly code = 'shoe-work.not-fixed-so';
  readonly status = 422;
  readonly title = 'That way is not fixed so';

  constructor(allowed: readonly string[]) {
    super(undefined, { errors: [{ field: 'fixing', message: `must be one of: ${allowed.join(', ')}` }] });
  }
}

export class CaseOpen extends ApiError {
  readonly code = 'shoe-work.case-open';
  readonly status = 409;
  readonly title = 'Work on these shoes is under way already';
}

export class ConsentTextSuperseded extends ApiError {
  readonly code = 'shoe-work.consent-text-superseded';
  readonly status = 422;
  readonly title = 'The text to be signed has another version';

  constructor(inUse: string) {
    super(undefined, { errors: [{ field: 'textVersion', message: `must be ${inUse}` }] });
  }
}

export class StateImpossible extends ApiError {
  readonly code = 'shoe-work.state-impossible';
  readonly status = 409;
  readonly title = 'The case is not at a point where that can follow';

  constructor(at: {
    state: ShoeWorkState;
    allowed: readonly ShoeWorkState[];
    missingSteps: readonly DoneStep[];
  }) {
    super(
      at.missingSteps.length === 0
        ? undefined
        : `Not done yet: ${at.missingSteps.map(({ step, shoe }) => `${step} (${shoe})`).join(', ')}.`,
      at,
    );
  }
}

export class StepImpossible extends ApiError {
  readonly code = 'shoe-work.step-impossible';
  readonly status = 409;
  readonly title = 'That step cannot be written down now';

  constructor(state: ShoeWorkState, allowed: readonly DoneStep[]) {
    super(undefined, { state, allowed });
  }
}

export class StepDoneOtherwise extends ApiError {
  readonly code = 'shoe-work.step-done-otherwise';
  readonly status = 409;
  readonly title = 'The step was written down already, with other values';
}

export class BenchTaken extends ApiError {
  readonly code = 'shoe-work.bench-taken';
  readonly status = 409;
  readonly title = 'Something else lies on the bench in that time';

  /** Tells when, never whose. */
  constructor(clash: { readonly startsAt: string; readonly endsAt: string } | null) {
    super(
      clash === null ? undefined : `It is taken from ${clash.startsAt} to ${clash.endsAt}.`,
      clash === null ? {} : { clash },
    );
  }
}
