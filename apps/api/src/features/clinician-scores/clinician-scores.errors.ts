import type { ClinicianInputInvalid } from '@studio/clinical-flags';
import { ApiError } from '../../http/problem.js';

export class ScoreImpossible extends ApiError {
  readonly code = 'clinician-scores.impossible';
  readonly status = 422;
  readonly title = 'The score cannot take a value';

  constructor({ field, message }: ClinicianInputInvalid) {
    super(undefined, { errors: [{ field, message }] });
  }
}
