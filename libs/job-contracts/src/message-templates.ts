/** Every kind of message the studio sends; what each says is data of the library `messages`. */
export const messageTemplateNames = [
  'appointment_confirmed',
  'appointment_moved',
  'appointment_cancelled',
  'reminder_two_days',
  'reminder_two_hours',
  'intake_link',
  'intake_reminder',
  'waiting_list_offer',
  'curing_done',
  'shoe_work_cured',
  'fit_sheet_ready',
  'follow_up',
  'follow_up_reminder',
  'referral_deadline',
  'person_export_ready',
  'studio_alert',
  'record_opened',
  'notice',
] as const;

export type MessageTemplateName = (typeof messageTemplateNames)[number];
