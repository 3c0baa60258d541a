import type { MessageTemplateName } from '@studio/job-contracts';
import { appointmentSubject } from './appointment.js';
import { fitSheetSubject } from './fit-sheet.js';
import { followUpSubject } from './follow-up.js';
import { intakeLinkSubject, openIntakeSubject } from './intake-link.js';
import { personExportSubject } from './person-export.js';
import { shoeWorkSubject } from './shoe-work.js';
import type { Subject } from './subject.js';

export type Subjects = Partial<Record<MessageTemplateName, Subject>>;

/** How to read what a message is about. A template without one says only what its order holds. */
export const subjects = (options: { publicUrl: string; linkSecret: string; mailFrom: string }): Subjects => ({
  appointment_confirmed: appointmentSubject(options),
  appointment_moved: appointmentSubject(options),
  appointment_cancelled: appointmentSubject(options),
  reminder_two_days: appointmentSubject(options),
  reminder_two_hours: appointmentSubject(options),
  curing_done: appointmentSubject(options),
  shoe_work_cured: shoeWorkSubject,
  intake_link: intakeLinkSubject(options),
  intake_reminder: openIntakeSubject(options),
  fit_sheet_ready: fitSheetSubject(options),
  follow_up: followUpSubject(options),
  follow_up_reminder: followUpSubject(options),
  person_export_ready: personExportSubject(options),
});
