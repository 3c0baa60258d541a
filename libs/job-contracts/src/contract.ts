import type { QueueName, QueueRules } from './queues.js';

export interface JobContract<Name extends string, Payload extends object> extends Partial<
  Pick<QueueRules, 'share' | 'attempts' | 'backoffMs' | 'limitMs'>
> {
  readonly name: Name;
  /** Whose rules hold where the job names none of its own. */
  readonly queue: QueueName;
  /** Only for the type: what the outbox row's payload holds. */
  readonly payload?: Payload;
}
