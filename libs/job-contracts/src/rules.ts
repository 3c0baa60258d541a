import type { JobContract } from './contract.js';
import { jobs, type JobName } from './jobs.js';
import { queues, type QueueName, type QueueRules } from './queues.js';

const longestWaitMs = 3_600_000;

/** The rules a job is carried out by: its own where it has some, else its queue's. */
export function rulesOf(job: JobName): QueueRules & { readonly queue: QueueName } {
  const { queue, share, attempts, backoffMs, limitMs }: JobContract<string, object> = jobs[job];
  const rules: QueueRules = queues[queue];
  return {
    ...rules,
    queue,
    share: share ?? rules.share,
    attempts: attempts ?? rules.attempts,
    backoffMs: backoffMs ?? rules.backoffMs,
    limitMs: limitMs ?? rules.limitMs,
  };
}

/**
 * Milliseconds to wait after a failed try: twice as long after each, an hour at most, and of that between half and all,
 * so that what failed together does not come back together.
 *
 * @param failed tries that failed so far, 1 or more
 * @param chance from 0 to 1
 */
export function waitBeforeRetryMs(
  { backoffMs }: Pick<QueueRules, 'backoffMs'>,
  failed: number,
  chance = Math.random(),
): number {
  const longest = Math.min(backoffMs * 2 ** (failed - 1), longestWaitMs);
  return Math.round(longest * (0.5 + chance / 2));
}
