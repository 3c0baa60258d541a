import { ApiError } from '../../http/problem.js';

export class SlotsOutOfOrder extends ApiError {
  readonly code = 'equipment.slots-out-of-order';
  readonly status = 422;
  readonly title = 'The slots cannot be there';

  constructor() {
    super(undefined, {
      errors: [
        {
          field: 'slotFrontFromHeelMm',
          message: 'must be in front of slotRearFromHeelMm and within the shoe',
        },
      ],
    });
  }
}
