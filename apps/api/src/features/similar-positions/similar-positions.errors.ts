import { ApiError } from '../../http/problem.js';

export class SegmentsNotMeasured extends ApiError {
  readonly code = 'similar-positions.not-measured';
  readonly status = 409;
  readonly title = 'Thigh, shank and foot lever have to be measured first';

  constructor(missing: readonly string[]) {
    super(`Not measured in this session: ${missing.join(', ')}.`, { missing });
  }
}
