import { ApiError } from '../../http/problem.js';

/** Tells when, never whom: the other client's name stays out. */
export class AppointmentOverlap extends ApiError {
  readonly code = 'appointments.overlap';
  readonly status = 409;
  readonly title = 'The time is taken';

  constructor(clash: { resource: 'fitter' | 'room'; startsAt: string; endsAt: string } | null) {
    super(
      clash === null
        ? 'It was taken a moment ago.'
        : `The ${clash.resource} is booked from ${clash.startsAt} to ${clash.endsAt}.`,
      clash === null ? {} : { clash },
    );
  }
}

export class NotAFitter extends ApiError {
  readonly code = 'appointments.not-a-fitter';
  readonly status = 422;
  readonly title = 'That person of the studio does not fit bikes';

  constructor() {
    super(undefined, { errors: [{ field: 'fitterId', message: 'names nobody who fits bikes here' }] });
  }
}

export class AppointmentInThePast extends ApiError {
  readonly code = 'appointments.in-the-past';
  readonly status = 422;
  readonly title = 'The time has passed';

  constructor() {
    super(undefined, { errors: [{ field: 'startsAt', message: 'must be later than now' }] });
  }
}

export class AppointmentNotBooked extends ApiError {
  readonly code = 'appointments.not-booked';
  readonly status = 409;
  readonly title = 'The appointment is not booked any more';
}
