import type { JobName } from '@studio/job-contracts';
import type { SendFollowUpJob } from './jobs/send-follow-up/send-follow-up.job.js';
import type { SummariseOutcomeJob } from './jobs/summarise-outcome/summarise-outcome.job.js';
import type { JobHandler } from './order.js';

/** Job name to handler; a job without one does not compile. */
export type JobRegistry = { readonly [Name in JobName]: JobHandler<Name> };

export function jobRegistry(
  sendFollowUp: SendFollowUpJob,
  summariseOutcome: SummariseOutcomeJob,
): JobRegistry {
  return { 'send-follow-up': sendFollowUp, 'summarise-outcome': summariseOutcome };
}
