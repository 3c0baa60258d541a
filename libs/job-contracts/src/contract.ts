export interface JobContract<Name extends string, Payload extends object> {
  readonly name: Name;
  readonly queue: 'mail' | 'summaries';
  /** Tries before the job is given up and kept for a person to look at. */
  readonly attempts: number;
  /** First wait between tries in milliseconds; it doubles each time, with jitter. */
  readonly backoffMs: number;
  /** Only for the type: what the outbox row's payload holds. */
  readonly payload?: Payload;
}
