import { localTime } from '@studio/opening-hours';
import { actionsIn } from './appointment-actions.js';
import type { AppointmentResponse } from './appointments.dto.js';
import type { AppointmentRecord } from './appointments.queries.js';

export function toResponse(record: AppointmentRecord): AppointmentResponse {
  const { timeZone, cancelReason, cancelledBy, cancelledLate, ...rest } = record;
  return {
    ...rest,
    localStart: localTime(Date.parse(record.startsAt), timeZone),
    localEnd: localTime(Date.parse(record.endsAt), timeZone),
    cancellation:
      record.state === 'cancelled'
        ? { reason: cancelReason ?? '', by: cancelledBy ?? 'client', late: cancelledLate ?? false }
        : null,
    allowed: actionsIn(record.state),
  };
}
