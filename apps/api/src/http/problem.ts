import type { FitMathError } from '@studio/fit-math';
import { ApiProperty } from '@nestjs/swagger';

/** Shown beside the field it speaks of. */
export class FieldProblem {
  @ApiProperty({
    description: 'Path of the field in the body, or name of the parameter.',
    example: 'startsAt',
  })
  field: string;

  @ApiProperty({ example: 'must be an instant with an offset, like 2026-03-02T09:00:00Z' })
  message: string;
}

/** An RFC 9457 problem document. */
export class Problem {
  @ApiProperty({ example: 'urn:fitting-studio:problem:appointments.overlap' })
  type: string;

  @ApiProperty({ example: 'The time is taken' })
  title: string;

  @ApiProperty({ example: 409 })
  status: number;

  @ApiProperty({ description: 'Stable, for programs to act on.', example: 'appointments.overlap' })
  code: string;

  @ApiProperty({ required: false, example: 'The fitter is booked from 09:00 to 11:00.' })
  detail?: string;

  @ApiProperty({
    description: 'The request, as the log names it.',
    example: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11',
  })
  requestId: string;

  @ApiProperty({ type: [FieldProblem], required: false })
  errors?: FieldProblem[];
}

/**
 * A failure the caller can act on. Each feature derives its own; the status and the code belong to the class.
 * `extra` members are added to the problem document and must hold no personal data.
 */
export abstract class ApiError extends Error {
  abstract readonly code: string;
  abstract readonly status: number;
  /** One short sentence that is the same for every occurrence. */
  abstract readonly title: string;
  /** Sent with the problem document. */
  readonly headers: Readonly<Record<string, string>> = {};

  constructor(
    readonly detail?: string,
    readonly extra: Readonly<Record<string, unknown>> = {},
  ) {
    super(detail ?? new.target.name);
  }
}

export class NotFound extends ApiError {
  readonly code = 'not-found';
  readonly status = 404;
  readonly title = 'There is no such record';
}

/** Its key was destroyed on its owner's order. */
export class StudioErased extends ApiError {
  readonly code = 'studio.erased';
  readonly status = 410;
  readonly title = 'What this studio had sealed is gone, and nothing more is written down for it';
}

export class InvalidRequest extends ApiError {
  readonly code = 'request.invalid';
  readonly status = 400;
  readonly title = 'The request is not valid';

  constructor(readonly errors: readonly FieldProblem[]) {
    super(undefined, { errors });
  }
}

export class NotSignedIn extends ApiError {
  readonly code = 'access.not-signed-in';
  readonly status = 401;
  readonly title = 'Sign in first';
}

export class NotAllowed extends ApiError {
  readonly code = 'access.not-allowed';
  readonly status = 403;
  readonly title = 'Your role may not do this';
}

/** A key or a restricted sign-in came where only the person may go. */
export class InPersonOnly extends ApiError {
  readonly code = 'access.in-person-only';
  readonly status = 403;
  readonly title = 'A program may not do this; sign in yourself';
}

export class UnknownReference extends ApiError {
  readonly code = 'reference.unknown';
  readonly status = 422;
  readonly title = 'A record named in the request does not exist';

  constructor(field: string) {
    super(undefined, { errors: [{ field, message: 'names no record of this studio' }] });
  }
}

export class PreconditionRequired extends ApiError {
  readonly code = 'version.missing';
  readonly status = 428;
  readonly title = 'Say in If-Match which version the change was made from';
}

export class KeyUsedForAnother extends ApiError {
  readonly code = 'idempotency-key.used-for-another';
  readonly status = 422;
  readonly title = 'This Idempotency-Key belongs to another request';
}

/** Somebody else held what was needed, or there was too much of it; nothing was written. */
export class TookTooLong extends ApiError {
  readonly code = 'request.took-too-long';
  readonly status = 503;
  readonly title = 'The database took too long; try again';
  override readonly headers = { 'retry-after': '5' };
}

export class StaleVersion extends ApiError {
  readonly code = 'version.stale';
  readonly status = 412;
  readonly title = 'Somebody changed the record in the meantime; read it again';
}

/** A value or a geometry that cannot be; names the input. */
export class ImpossibleGeometry extends ApiError {
  readonly code: string;
  readonly status = 422;
  readonly title = 'That cannot be';

  constructor(cause: FitMathError) {
    super(undefined, { errors: [{ field: cause.field, message: `allowed: ${cause.allowed}` }] });
    this.code = `fit-math.${cause.code}`;
  }
}

/** The record, or the one answer for "missing" and "another studio's". */
export function found<T>(record: T | null): T {
  if (record === null) throw new NotFound();
  return record;
}
