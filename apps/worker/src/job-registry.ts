import type { WorkerConfig } from '@studio/config';
import type { TenantTransaction } from '@studio/database';
import type { JobName } from '@studio/job-contracts';
import type { ObjectStorage } from '@studio/storage';
import { AlertStudioJob } from './jobs/alert-studio/alert-studio.job.js';
import { DeliverWebhookJob } from './jobs/deliver-webhook/deliver-webhook.job.js';
import { EndRetentionJob } from './jobs/end-retention/end-retention.job.js';
import { ErasePersonJob } from './jobs/erase-person/erase-person.job.js';
import { PersonErasure } from './jobs/erase-person/person-erasure.js';
import { ExportPersonJob } from './jobs/export-person/export-person.job.js';
import { ForgetIdempotencyKeysJob } from './jobs/forget-idempotency-keys/forget-idempotency-keys.job.js';
import { ImportClientsJob } from './jobs/import-clients/import-clients.job.js';
import { OfferFreedTimesJob } from './jobs/offer-freed-times/offer-freed-times.job.js';
import { OpenDueTasksJob } from './jobs/open-due-tasks/open-due-tasks.job.js';
import { RemoveFileJob } from './jobs/remove-file/remove-file.job.js';
import { RenderFitSheetJob } from './jobs/render-fit-sheet/render-fit-sheet.job.js';
import { SealAuditJob } from './jobs/seal-audit/seal-audit.job.js';
import { SendFollowUpJob } from './jobs/send-follow-up/send-follow-up.job.js';
import { SendMessageJob } from './jobs/send-message/send-message.job.js';
import { subjects } from './jobs/send-message/subjects/index.js';
import { SendPasswordLinkJob } from './jobs/send-password-link/send-password-link.job.js';
import { SummariseOutcomeJob } from './jobs/summarise-outcome/summarise-outcome.job.js';
import { TidyOutboxJob } from './jobs/tidy-outbox/tidy-outbox.job.js';
import type { Mailer } from './mailer.js';
import type { JobHandler } from './order.js';

/** Job name to handler; a job without one does not compile. */
export type JobRegistry = { readonly [Name in JobName]: JobHandler<Name> };

export function jobRegistry({
  transaction,
  mailer,
  storage,
  config,
}: {
  transaction: TenantTransaction;
  mailer: Mailer;
  storage: ObjectStorage;
  config: WorkerConfig;
}): JobRegistry {
  const erasure = new PersonErasure(transaction, storage);
  return {
    'alert-studio': new AlertStudioJob(transaction, config),
    'deliver-webhook': new DeliverWebhookJob(transaction, config),
    'end-retention': new EndRetentionJob(transaction, storage, erasure),
    'erase-person': new ErasePersonJob(transaction, erasure),
    'export-person': new ExportPersonJob(transaction, storage),
    'forget-idempotency-keys': new ForgetIdempotencyKeysJob(transaction),
    'import-clients': new ImportClientsJob(transaction),
    'offer-freed-times': new OfferFreedTimesJob(transaction, config),
    'open-due-tasks': new OpenDueTasksJob(transaction),
    'remove-file': new RemoveFileJob(transaction, storage),
    'render-fit-sheet': new RenderFitSheetJob(transaction, storage),
    'seal-audit': new SealAuditJob(transaction),
    'send-follow-up': new SendFollowUpJob(transaction),
    'send-message': new SendMessageJob(transaction, mailer, subjects(config), config),
    'send-password-link': new SendPasswordLinkJob(transaction, mailer, config),
    'summarise-outcome': new SummariseOutcomeJob(transaction),
    'tidy-outbox': new TidyOutboxJob(transaction),
  };
}
