/**
 * Everything an API client can be told of, with the name its record's id has in the message. The message holds ids
 * only; what happened is read through the API, by whoever may.
 */
export const webhookEvents = {
  'appointment.booked': { id: 'appointmentId', says: 'A visit was booked.' },
  'appointment.moved': { id: 'appointmentId', says: 'A visit has another time, fitter, room or bench.' },
  'appointment.cancelled': { id: 'appointmentId', says: 'A visit was cancelled.' },
  'fit_session.signed': { id: 'fitSessionId', says: 'A fit session was signed.' },
  'follow_up.answered': { id: 'followUpId', says: 'A client answered a follow-up.' },
  'referral.opened': { id: 'referralId', says: 'A referral case was opened.' },
  'referral.closed': { id: 'referralId', says: 'A referral case was cleared or ended.' },
} as const satisfies Record<string, { id: string; says: string }>;

export type WebhookEventType = keyof typeof webhookEvents;
export const webhookEventTypes = Object.keys(webhookEvents) as WebhookEventType[];
