import type { QueryRunner } from 'typeorm';

/**
 * Make or drop indexes of tables that are in use, for as long as that takes. The migration says `transaction = false`.
 * One that was cut off leaves an index that is not valid: begin with DROP INDEX CONCURRENTLY IF EXISTS.
 */
export async function concurrently(runner: QueryRunner, ...statements: string[]): Promise<void> {
  await runner.query('SET lock_timeout = 0');
  await runner.query('SET statement_timeout = 0');
  try {
    for (const statement of statements) await runner.query(statement);
  } finally {
    // The connection's own, which the next migration has again.
    await runner.query('RESET lock_timeout');
    await runner.query('RESET statement_timeout');
  }
}
