import type { AppointmentState, Prerequisite } from '@studio/database';
import { ApiError } from '../../http/problem.js';
import { actionsIn } from './appointment-actions.js';

export type ResourceKind = 'fitter' | 'room' | 'bench';

export interface Clash {
  readonly resource: ResourceKind;
  readonly startsAt: string;
  readonly endsAt: string;
}

/** Tells when, never whom: the other client's name stays out. */
export class AppointmentOverlap extends ApiError {
  readonly code = 'appointments.overlap';
  readonly status = 409;
  readonly title = 'The time is taken';

  constructor(clash: Clash | null) {
    super(
      clash === null
        ? 'It was taken a moment ago.'
        : `The ${clash.resource} is booked from ${clash.startsAt} to ${clash.endsAt}.`,
      clash === null ? {} : { clash },
    );
  }
}

export class NoBenchFree extends ApiError {
  readonly code = 'appointments.no-bench-free';
  readonly status = 409;
  readonly title = 'No bench is free to cure on';
}

export class NotAFitter extends ApiError {
  readonly code = 'appointments.not-a-fitter';
  readonly status = 422;
  readonly title = 'That person of the studio does not fit bikes';

  constructor() {
    super(undefined, { errors: [{ field: 'fitterId', message: 'names nobody who fits bikes here' }] });
  }
}

export class NotSuited extends ApiError {
  readonly code = 'appointments.not-suited';
  readonly status = 422;
  readonly title = 'The service needs what this fitter, room or bench does not have';

  constructor(field: 'fitterId' | 'roomId' | 'benchId', message: string) {
    super(undefined, { errors: [{ field, message }] });
  }
}

export class ServiceRetired extends ApiError {
  readonly code = 'appointments.service-retired';
  readonly status = 422;
  readonly title = 'The service is not offered any more';

  constructor() {
    super(undefined, { errors: [{ field: 'serviceId', message: 'names a retired service' }] });
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

export class OutsideHours extends ApiError {
  readonly code = 'appointments.outside-hours';
  readonly status = 422;
  readonly title = 'The time lies outside hours, lead time or horizon';

  constructor(message: string) {
    super('Send evenOutsideHours to book it all the same.', { errors: [{ field: 'startsAt', message }] });
  }
}

export class NotYet extends ApiError {
  readonly code = 'appointments.not-yet';
  readonly status = 409;
  readonly title = 'The visit has not begun yet';
}

export class PrerequisitesMissing extends ApiError {
  readonly code = 'appointments.prerequisites-missing';
  readonly status = 409;
  readonly title = 'Something the service asks for is not in hand';

  constructor(missing: readonly Prerequisite[]) {
    super(undefined, { missing });
  }
}

export class NotPossible extends ApiError {
  readonly code = 'appointments.not-possible';
  readonly status = 409;
  readonly title = 'The state of the appointment does not allow it';

  constructor(state: AppointmentState) {
    const allowed = actionsIn(state);
    super(`It is ${state}; possible: ${allowed.length === 0 ? 'nothing' : allowed.join(', ')}.`, {
      state,
      allowed,
    });
  }
}

export class SeriesOutOfOrder extends ApiError {
  readonly code = 'appointments.series-out-of-order';
  readonly status = 422;
  readonly title = 'A visit of the series begins before the one before it is over';

  constructor(index: number) {
    super(undefined, {
      errors: [
        { field: `visits.${index}.startsAt`, message: 'must not be before the end of the visit before it' },
      ],
    });
  }
}
