import type { AnswerProblem } from '@studio/clinical-flags';
import { ApiError } from '../../http/problem.js';

export class UnknownQuestionSet extends ApiError {
  readonly code = 'screenings.question-set-unknown';
  readonly status = 422;
  readonly title = 'There is no such question set in that version';

  constructor() {
    super(undefined, { errors: [{ field: 'questionSet', message: 'names no set in that version' }] });
  }
}

/** An older version stays readable, but its answers leave open what is asked today. */
export class QuestionSetSuperseded extends ApiError {
  readonly code = 'screenings.question-set-superseded';
  readonly status = 422;
  readonly title = 'The question set has a newer version: ask that one';

  constructor(inUse: string) {
    super(undefined, { errors: [{ field: 'questionSetVersion', message: `must be ${inUse}` }] });
  }
}

export class AnswersInvalid extends ApiError {
  readonly code = 'screenings.answers-invalid';
  readonly status = 422;
  readonly title = 'Some answers cannot be taken';

  constructor(problems: AnswerProblem[]) {
    super(undefined, {
      errors: problems.map(({ question, message }) => ({ field: `answers.${question}`, message })),
    });
  }
}

export class NothingToClear extends ApiError {
  readonly code = 'screenings.nothing-to-clear';
  readonly status = 409;
  readonly title = 'This screening holds nothing that needs a clearance, or has one already';
}

export class ClearanceRunOut extends ApiError {
  readonly code = 'screenings.clearance-run-out';
  readonly status = 422;
  readonly title = 'A clearance must last beyond today';

  constructor() {
    super(undefined, { errors: [{ field: 'validUntil', message: 'must not lie before today' }] });
  }
}

export class SignOffImpossible extends ApiError {
  readonly code = 'screenings.sign-off-impossible';
  readonly status = 422;
  readonly title = 'The rules cannot be signed so';

  constructor(field: string, message: string) {
    super(undefined, { errors: [{ field, message }] });
  }
}

export class AlreadySigned extends ApiError {
  readonly code = 'screenings.already-signed';
  readonly status = 409;
  readonly title = 'This clinician signed this version already';
}

export class NotPermitted extends ApiError {
  readonly code = 'screenings.not-permitted';
  readonly status = 409;
  readonly title = 'The screening in force does not allow it';

  constructor(
    detail: string,
    extra: {
      screeningId?: string;
      findingIds?: string[];
      rules?: string[];
      openQuestions?: string[];
    } = {},
  ) {
    super(detail, extra);
  }
}
