import { ApiError } from '../../http/problem.js';

export class ComparisonNeedsChange extends ApiError {
  readonly code = 'outcomes.comparison-needs-change';
  readonly status = 422;
  readonly title = 'There are no others without a change to choose by';

  constructor() {
    super(undefined, {
      errors: [{ field: 'intervention', message: 'is needed to compare with the others' }],
    });
  }
}
