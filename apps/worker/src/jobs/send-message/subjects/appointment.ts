import { calendar } from '@studio/calendars';
import type { AppointmentState } from '@studio/database';
import type { MessageTemplateName } from '@studio/job-contracts';
import { findVisit, type Visit } from './appointment.queries.js';
import type { Prepared, Subject } from './subject.js';

interface Rule {
  /** In which states of the visit the message is still wanted. */
  readonly wantedIn: readonly AppointmentState[];
  /** What a calendar program is to do with the visit (RFC 5546, 3.2). */
  readonly method?: 'REQUEST' | 'CANCEL';
}

const rules: Partial<Record<MessageTemplateName, Rule>> = {
  appointment_confirmed: { wantedIn: ['booked', 'checked_in'], method: 'REQUEST' },
  appointment_moved: { wantedIn: ['booked'], method: 'REQUEST' },
  appointment_cancelled: { wantedIn: ['cancelled'], method: 'CANCEL' },
  reminder_two_days: { wantedIn: ['booked'] },
  reminder_two_hours: { wantedIn: ['booked'] },
  curing_done: { wantedIn: ['checked_in', 'completed'] },
};

/** A visit, told by the clock of its place, with an invitation where the calendar should know. */
export const appointmentSubject = ({ mailFrom }: { mailFrom: string }): Subject => ({
  async prepare(tx, { studioId, subjectId, template }) {
    const rule = rules[template];
    const visit = await findVisit(tx, { studioId, id: subjectId });
    if (!visit || !rule?.wantedIn.includes(visit.state)) return null;
    const { service, startsAt, fitter, timeZone } = visit;
    const values = { service, startsAt: startsAt.toISOString(), fitter, place: placeOf(visit) };
    const { method } = rule;
    return {
      values,
      timeZone,
      ...(method && visit.attachInvitations && { calendar: invitation(visit, method, mailFrom) }),
    };
  },
});

function invitation(visit: Visit, method: 'REQUEST' | 'CANCEL', mailFrom: string): Prepared['calendar'] {
  const { email } = visit;
  const content = calendar({
    method,
    sentAt: visit.now.getTime(),
    events: [
      {
        uid: visit.id,
        sequence: visit.sequence,
        changedAt: visit.changedAt.getTime(),
        startsAt: visit.startsAt.getTime(),
        endsAt: visit.endsAt.getTime(),
        timeZone: visit.timeZone,
        summary: `${visit.service}, ${visit.studioName}`,
        location: placeOf(visit),
        status: method === 'CANCEL' ? 'CANCELLED' : 'CONFIRMED',
        organizer: { name: visit.studioName, email: mailFrom },
        ...(email !== null && { attendee: { name: `${visit.givenName} ${visit.familyName}`, email } }),
      },
    ],
  });
  return { method, content };
}

const placeOf = ({ site, room }: Visit): string => [site, room].filter((name) => name !== null).join(', ');
