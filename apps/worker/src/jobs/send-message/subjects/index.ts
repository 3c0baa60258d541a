import type { MessageTemplateName } from '@studio/job-contracts';
import { appointmentSubject } from './appointment.js';
import { followUpSubject } from './follow-up.js';
import { intakeLinkSubject, openIntakeSubject } from './intake-link.js';
import type { Subject } from './subject.js';

export type Subjects = Partial<Record<MessageTemplateName, Subject>>;

/** How to read what a message is about. A template without one says only what its order holds. */
export const subjects = (options: { publicUrl: string; linkSecret: string }): Subjects => ({
  appointment_confirmed: appointmentSubject,
  appointment_moved: appointmentSubject,
  appointment_cancelled: appointmentSubject,
  reminder_two_days: appointmentSubject,
  reminder_two_hours: appointmentSubject,
  curing_done: appointmentSubject,
  intake_link: intakeLinkSubject(options),
  intake_reminder: openIntakeSubject(options),
  follow_up: followUpSubject(options),
  follow_up_reminder: followUpSubject(options),
});
