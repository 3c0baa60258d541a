/** SQLSTATE codes this project acts on (PostgreSQL manual, appendix A). */
export const sqlState = {
  foreignKeyViolation: '23503',
  uniqueViolation: '23505',
  checkViolation: '23514',
  exclusionViolation: '23P01',
  serializationFailure: '40001',
  deadlockDetected: '40P01',
  lockNotAvailable: '55P03',
  inFailedTransaction: '25P02',
  queryCanceled: '57014',
} as const;

export interface PostgresFailure {
  readonly code: string;
  /** The name of the violated constraint, where there is one. */
  readonly constraint: string | undefined;
}

/** What PostgreSQL said, when the error came from PostgreSQL; TypeORM wraps it. */
export function postgresFailure(error: unknown): PostgresFailure | undefined {
  const cause = (error as { driverError?: unknown } | null)?.driverError ?? error;
  const { code, constraint } = (cause ?? {}) as { code?: unknown; constraint?: unknown };
  if (typeof code !== 'string' || !/^[0-9A-Z]{5}$/.test(code)) return undefined;
  return { code, constraint: typeof constraint === 'string' ? constraint : undefined };
}

export function violates(error: unknown, constraint: string): boolean {
  return postgresFailure(error)?.constraint === constraint;
}

/** The statement was at its time limit, or waited for a lock as long as it may. */
export function tookTooLong(error: unknown): boolean {
  const code = postgresFailure(error)?.code;
  return code === sqlState.queryCanceled || code === sqlState.lockNotAvailable;
}

export function isRetryable(error: unknown): boolean {
  const code = postgresFailure(error)?.code;
  return code === sqlState.serializationFailure || code === sqlState.deadlockDetected;
}

/** Only that something before it had failed: it says nothing of why. */
export function isAftermath(error: unknown): boolean {
  return postgresFailure(error)?.code === sqlState.inFailedTransaction;
}
