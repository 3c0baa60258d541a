import type { MessageTemplateName } from '@studio/job-contracts';
import { commonPlaceholders, type MessageTemplate, type Placeholder } from './template.js';
import { fitSheetReady, followUp, followUpReminder } from './templates/after-the-fit.js';
import {
  appointmentCancelled,
  appointmentConfirmed,
  appointmentMoved,
  curingDone,
  reminderTwoDays,
  reminderTwoHours,
} from './templates/appointments.js';
import {
  intakeLinkMail,
  intakeReminder,
  referralDeadline,
  waitingListOffer,
} from './templates/before-the-fit.js';
import { personExportReady } from './templates/rights.js';
import { shoeWorkCured } from './templates/shoe-work.js';
import { notice, recordOpened, studioAlert } from './templates/to-the-studio.js';

export const messageTemplates: Readonly<Record<MessageTemplateName, MessageTemplate>> = {
  appointment_confirmed: appointmentConfirmed,
  appointment_moved: appointmentMoved,
  appointment_cancelled: appointmentCancelled,
  reminder_two_days: reminderTwoDays,
  reminder_two_hours: reminderTwoHours,
  intake_link: intakeLinkMail,
  intake_reminder: intakeReminder,
  waiting_list_offer: waitingListOffer,
  curing_done: curingDone,
  shoe_work_cured: shoeWorkCured,
  fit_sheet_ready: fitSheetReady,
  follow_up: followUp,
  follow_up_reminder: followUpReminder,
  referral_deadline: referralDeadline,
  person_export_ready: personExportReady,
  studio_alert: studioAlert,
  record_opened: recordOpened,
  notice,
};

/** What a text of the template may speak of: its own placeholders and those of every message. */
export function placeholdersOf(template: MessageTemplate): Readonly<Record<string, Placeholder>> {
  const { studioName, ...ofClient } = commonPlaceholders;
  return { ...(template.to === 'client' && ofClient), studioName, ...template.placeholders };
}
