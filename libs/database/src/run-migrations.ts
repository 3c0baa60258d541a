import { createDataSource } from './data-source.js';

/**
 * Bring the database to the newest schema, as its owner. With `testClock` the API may move the clock; without it
 * that right is taken away again.
 */
export async function migrate(options: { ownerUrl: string; testClock: boolean }): Promise<string[]> {
  const dataSource = createDataSource({
    url: options.ownerUrl,
    poolSize: 1,
    applicationName: 'studio-migrate',
  });
  await dataSource.initialize();
  try {
    const ran = await dataSource.runMigrations({ transaction: 'each' });
    await dataSource.query(
      options.testClock
        ? 'GRANT INSERT, UPDATE ON test_clock TO fitting_api'
        : 'REVOKE INSERT, UPDATE ON test_clock FROM fitting_api',
    );
    return ran.map((migration) => migration.name);
  } finally {
    await dataSource.destroy();
  }
}
