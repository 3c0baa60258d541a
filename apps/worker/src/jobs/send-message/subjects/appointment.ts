import type { AppointmentState } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import type { Subject } from './subject.js';
import { findVisit } from './appointment.queries.js';

/** In which states of the visit a message about it is still wanted. */
const wantedIn: Partial<Record<MessageTemplateName, readonly AppointmentState[]>> = {
  appointment_confirmed: ['booked', 'checked_in', 'completed'],
  appointment_moved: ['booked'],
  appointment_cancelled: ['cancelled'],
  reminder_two_days: ['booked'],
  reminder_two_hours: ['booked'],
  curing_done: ['checked_in', 'completed'],
};

/** A visit, told by the clock of its place. */
export const appointmentSubject: Subject = {
  async prepare(tx, { studioId, subjectId, template }) {
    const visit = await findVisit(tx, { studioId, id: subjectId });
    if (!visit || !wantedIn[template]?.includes(visit.state)) return null;
    const { service, startsAt, fitter, timeZone } = visit;
    const place = [visit.site, visit.room].filter((name) => name !== null).join(', ');
    return { values: { service, startsAt, fitter, place }, timeZone };
  },
};
