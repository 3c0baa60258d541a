import type { JobName, JobPayload } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

/** What a queue holds of an outbox row: ids only, since Redis keeps it in clear text. */
export interface Order<Name extends JobName = JobName> {
  readonly studioId: string;
  readonly outboxId: string;
  readonly payload: JobPayload<Name>;
}

/** Carries out one order; must stand being run twice, and calls `finishOrder` with its effect. */
export interface JobHandler<Name extends JobName> {
  /** @param signal fires when the time limit is over or the worker has to stop: the order is then taken up again */
  handle(order: Order<Name>, signal: AbortSignal): Promise<void>;
  /** In the transaction that gives the order up: what the record has to say about it. */
  gaveUp?(tx: EntityManager, order: Order<Name>, reason: string): Promise<void>;
}

/** Trying again would not help. */
export class GiveUp extends Error {
  override readonly name = 'GiveUp';
}

/** It is too early: the order comes again after this long, and no try is counted. */
export class NotYet extends Error {
  override readonly name = 'NotYet';

  constructor(readonly waitMs: number) {
    super('not yet');
  }
}

/** The try took longer than its job may take. */
export class TimeLimitReached extends Error {
  override readonly name = 'TimeLimitReached';

  constructor(limitMs: number) {
    super(`not done within ${limitMs / 1000} s`);
  }
}

/** The worker has to stop now. */
export class Stopping extends Error {
  override readonly name = 'Stopping';
}
