// Checks the signed records of every studio against their signatures. From the environment: DATABASE_URL, as the API's
// own role. Exits with 1 when anything is not as it was signed.
import { createDataSource, StudioHandle, verifyRecords } from '@studio/database';

const url = process.env['DATABASE_URL'];
if (url === undefined) {
  console.error('DATABASE_URL: is missing');
  process.exit(1);
}
const dataSource = createDataSource({ url, poolSize: 1, applicationName: 'verify-records' });
await dataSource.initialize();
let broken = 0;
try {
  for (const { handle, studioId } of await dataSource.manager.find(StudioHandle, {
    order: { handle: 'ASC' },
  })) {
    const result = await dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
      return verifyRecords(tx, studioId);
    });
    const head = result.head === null ? 'none' : `${result.head.number} ${result.head.hash}`;
    console.log(`${handle}: ${result.signatures} signatures, newest ${head}, ${result.broken.length} broken`);
    for (const record of result.broken) console.log(`  ${JSON.stringify(record)}`);
    broken += result.broken.length;
  }
} finally {
  await dataSource.destroy();
}
process.exitCode = broken === 0 ? 0 : 1;
