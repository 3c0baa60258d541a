import type { JobName } from '@studio/job-contracts';
import type { AlertStudioJob } from './jobs/alert-studio/alert-studio.job.js';
import type { ImportClientsJob } from './jobs/import-clients/import-clients.job.js';
import type { OfferFreedTimesJob } from './jobs/offer-freed-times/offer-freed-times.job.js';
import type { OpenDueTasksJob } from './jobs/open-due-tasks/open-due-tasks.job.js';
import type { DeliverWebhookJob } from './jobs/deliver-webhook/deliver-webhook.job.js';
import type { RenderFitSheetJob } from './jobs/render-fit-sheet/render-fit-sheet.job.js';
import type { EndRetentionJob } from './jobs/end-retention/end-retention.job.js';
import type { ErasePersonJob } from './jobs/erase-person/erase-person.job.js';
import type { ExportPersonJob } from './jobs/export-person/export-person.job.js';
import type { RemoveFileJob } from './jobs/remove-file/remove-file.job.js';
import type { SealAuditJob } from './jobs/seal-audit/seal-audit.job.js';
import type { SendFollowUpJob } from './jobs/send-follow-up/send-follow-up.job.js';
import type { SendMessageJob } from './jobs/send-message/send-message.job.js';
import type { SendPasswordLinkJob } from './jobs/send-password-link/send-password-link.job.js';
import type { SummariseOutcomeJob } from './jobs/summarise-outcome/summarise-outcome.job.js';
import type { TidyOutboxJob } from './jobs/tidy-outbox/tidy-outbox.job.js';
import type { JobHandler } from './order.js';

/** Job name to handler; a job without one does not compile. */
export type JobRegistry = { readonly [Name in JobName]: JobHandler<Name> };

export function jobRegistry(
  alertStudio: AlertStudioJob,
  importClients: ImportClientsJob,
  offerFreedTimes: OfferFreedTimesJob,
  openDueTasks: OpenDueTasksJob,
  deliverWebhook: DeliverWebhookJob,
  renderFitSheet: RenderFitSheetJob,
  endRetention: EndRetentionJob,
  erasePerson: ErasePersonJob,
  exportPerson: ExportPersonJob,
  removeFile: RemoveFileJob,
  sealAudit: SealAuditJob,
  sendFollowUp: SendFollowUpJob,
  sendMessage: SendMessageJob,
  sendPasswordLink: SendPasswordLinkJob,
  summariseOutcome: SummariseOutcomeJob,
  tidyOutbox: TidyOutboxJob,
): JobRegistry {
  return {
    'alert-studio': alertStudio,
    'import-clients': importClients,
    'offer-freed-times': offerFreedTimes,
    'open-due-tasks': openDueTasks,
    'deliver-webhook': deliverWebhook,
    'render-fit-sheet': renderFitSheet,
    'end-retention': endRetention,
    'erase-person': erasePerson,
    'export-person': exportPerson,
    'remove-file': removeFile,
    'seal-audit': sealAudit,
    'send-follow-up': sendFollowUp,
    'send-message': sendMessage,
    'send-password-link': sendPasswordLink,
    'summarise-outcome': summariseOutcome,
    'tidy-outbox': tidyOutbox,
  };
}
