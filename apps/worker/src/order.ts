import type { JobName, JobPayload } from '@studio/job-contracts';

/** What a queue holds of an outbox row: ids only, since Redis keeps it in clear text. */
export interface Order<Name extends JobName = JobName> {
  readonly studioId: string;
  readonly outboxId: string;
  readonly payload: JobPayload<Name>;
}

/** Carries out one order; must stand being run twice, and calls `finishOrder` with its effect. */
export interface JobHandler<Name extends JobName> {
  handle(order: Order<Name>): Promise<void>;
}

/** Trying again would not help. */
export class GiveUp extends Error {
  override readonly name = 'GiveUp';
}
