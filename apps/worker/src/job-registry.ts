import type { JobName } from '@studio/job-contracts';
import type { AlertStudioJob } from './jobs/alert-studio/alert-studio.job.js';
import type { SendFollowUpJob } from './jobs/send-follow-up/send-follow-up.job.js';
import type { SendIntakeLinkJob } from './jobs/send-intake-link/send-intake-link.job.js';
import type { SendPasswordLinkJob } from './jobs/send-password-link/send-password-link.job.js';
import type { SummariseOutcomeJob } from './jobs/summarise-outcome/summarise-outcome.job.js';
import type { JobHandler } from './order.js';

/** Job name to handler; a job without one does not compile. */
export type JobRegistry = { readonly [Name in JobName]: JobHandler<Name> };

export function jobRegistry(
  alertStudio: AlertStudioJob,
  sendFollowUp: SendFollowUpJob,
  sendIntakeLink: SendIntakeLinkJob,
  sendPasswordLink: SendPasswordLinkJob,
  summariseOutcome: SummariseOutcomeJob,
): JobRegistry {
  return {
    'alert-studio': alertStudio,
    'send-follow-up': sendFollowUp,
    'send-intake-link': sendIntakeLink,
    'send-password-link': sendPasswordLink,
    'summarise-outcome': summariseOutcome,
  };
}
