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

export class BoltLineOffTheSole extends ApiError {
  readonly code = 'equipment.bolt-line-off-the-sole';
  readonly status = 422;
  readonly title = 'The bolts cannot be there';

  constructor() {
    super(undefined, { errors: [{ field: 'boltLineFromHeelMm', message: 'must lie within the shoe' }] });
  }
}

export class FittedBeforeTheLast extends ApiError {
  readonly code = 'equipment.fitted-before-the-last';
  readonly status = 422;
  readonly title = 'A part cannot go before it came';

  constructor() {
    super(undefined, {
      errors: [{ field: 'validFrom', message: 'must not lie before the part in use was fitted' }],
    });
  }
}

export class AlreadyMounted extends ApiError {
  readonly code = 'equipment.already-mounted';
  readonly status = 409;
  readonly title = 'A part of that kind is on that shoe; take it off first';
}

export class PutAway extends ApiError {
  readonly code = 'equipment.put-away';
  readonly status = 409;
  readonly title = 'It is put away; take it up again first';

  constructor(field: 'bikeId' | 'shoeId') {
    super(undefined, { errors: [{ field, message: 'is put away' }] });
  }
}
