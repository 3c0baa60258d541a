import type { JobName } from '@studio/job-contracts';
import type { AlertStudioJob } from './jobs/alert-studio/alert-studio.job.js';
import type { DeliverWebhookJob } from './jobs/deliver-webhook/deliver-webhook.job.js';
import type { SendFollowUpJob } from './jobs/send-follow-up/send-follow-up.job.js';
import type { SendIntakeLinkJob } from './jobs/send-intake-link/send-intake-link.job.js';
import type { SummariseOutcomeJob } from './jobs/summarise-outcome/summarise-outcome.job.js';
import type { TidyOutboxJob } from './jobs/tidy-outbox/tidy-outbox.job.js';
import type { JobHandler } from './order.js';

/** Job name to handler; a job without one does not compile. */
export type JobRegistry = { readonly [Name in JobName]: JobHandler<Name> };

export function jobRegistry(
  alertStudio: AlertStudioJob,
  deliverWebhook: DeliverWebhookJob,
  sendFollowUp: SendFollowUpJob,
  sendIntakeLink: SendIntakeLinkJob,
  summariseOutcome: SummariseOutcomeJob,
  tidyOutbox: TidyOutboxJob,
): JobRegistry {
  return {
    'alert-studio': alertStudio,
    'deliver-webhook': deliverWebhook,
    'send-follow-up': sendFollowUp,
    'send-intake-link': sendIntakeLink,
    'summarise-outcome': summariseOutcome,
    'tidy-outbox': tidyOutbox,
  };
}
