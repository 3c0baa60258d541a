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

/** Make indexes of tables that are in use, each anew where it was cut off before. `indexes`: what each is on, by its name. */
export async function makeIndexes(
  runner: QueryRunner,
  indexes: Readonly<Record<string, string>>,
): Promise<void> {
  for (const [name, on] of Object.entries(indexes)) {
    await concurrently(
      runner,
      `DROP INDEX CONCURRENTLY IF EXISTS ${name}`,
      `CREATE INDEX CONCURRENTLY ${name} ON ${on}`,
    );
  }
}

export async function dropIndexes(runner: QueryRunner, names: readonly string[]): Promise<void> {
  for (const name of names) await concurrently(runner, `DROP INDEX CONCURRENTLY IF EXISTS ${name}`);
}
