import { alertStudio } from './alert-studio.js';
import { forgetIdempotencyKeys } from './forget-idempotency-keys.js';
import { importClients } from './import-clients.js';
import { offerFreedTimes } from './offer-freed-times.js';
import { openDueTasks } from './open-due-tasks.js';
import { deliverWebhook } from './deliver-webhook.js';
import { renderFitSheet } from './render-fit-sheet.js';
import { endRetention } from './end-retention.js';
import { erasePerson } from './erase-person.js';
import { exportPerson } from './export-person.js';
import { removeFile } from './remove-file.js';
import { sealAudit } from './seal-audit.js';
import { sendFollowUp } from './send-follow-up.js';
import { sendMessage } from './send-message.js';
import { sendPasswordLink } from './send-password-link.js';
import { summariseOutcome } from './summarise-outcome.js';
import { tidyOutbox } from './tidy-outbox.js';

/**
 * Every job there is. A job is an order; its payload holds ids and a version, never a name, an answer or a
 * measurement, because Redis keeps it in clear text.
 */
export const jobs = {
  [alertStudio.name]: alertStudio,
  [forgetIdempotencyKeys.name]: forgetIdempotencyKeys,
  [importClients.name]: importClients,
  [offerFreedTimes.name]: offerFreedTimes,
  [openDueTasks.name]: openDueTasks,
  [deliverWebhook.name]: deliverWebhook,
  [renderFitSheet.name]: renderFitSheet,
  [endRetention.name]: endRetention,
  [erasePerson.name]: erasePerson,
  [exportPerson.name]: exportPerson,
  [removeFile.name]: removeFile,
  [sealAudit.name]: sealAudit,
  [sendFollowUp.name]: sendFollowUp,
  [sendMessage.name]: sendMessage,
  [sendPasswordLink.name]: sendPasswordLink,
  [summariseOutcome.name]: summariseOutcome,
  [tidyOutbox.name]: tidyOutbox,
} as const;

type Jobs = typeof jobs;
export type JobName = keyof Jobs;
export type JobPayload<Name extends JobName> = NonNullable<Jobs[Name]['payload']>;
/** Jobs that are told nothing but the studio: those a schedule may order. */
export type JobOfStudio = {
  [Name in JobName]: JobPayload<Name> extends Record<string, never> ? Name : never;
}[JobName];
