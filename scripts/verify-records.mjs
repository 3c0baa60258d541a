// Checks the signed records of every studio against their signatures, and its audit log against its seals. From the
// environment: DATABASE_URL, as the API's own role. Exits with 1 when anything is not as it was.
import { StudioHandle, verifyAudit, verifyRecords } from '@studio/database';
import { oneConnection } from './services/one-connection.mjs';

const url = process.env['DATABASE_URL'];
if (url === undefined) {
  console.error('DATABASE_URL: is missing');
  process.exit(1);
}
const dataSource = await oneConnection(url, 'verify-records');
let broken = 0;
try {
  for (const { handle, studioId } of await dataSource.manager.find(StudioHandle, {
    order: { handle: 'ASC' },
  })) {
    const { records, audit } = await dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
      return { records: await verifyRecords(tx, studioId), audit: await verifyAudit(tx, studioId) };
    });
    console.log(
      `${handle}: ${records.signatures} signatures, newest ${newest(records.head)}, ${records.broken.length} broken`,
    );
    for (const record of records.broken) console.log(`  ${JSON.stringify(record)}`);
    console.log(
      `${handle}: ${audit.seals} seals over ${audit.entries} audit entries, newest ${newest(audit.head)}, ` +
        `${audit.broken.length} broken, ${audit.unsealed} entries not sealed yet`,
    );
    for (const number of audit.broken) console.log(`  seal ${number}`);
    broken += records.broken.length + audit.broken.length;
  }
} finally {
  await dataSource.destroy();
}
process.exitCode = broken === 0 ? 0 : 1;

/** @param {{ number: number, hash: string } | null} head */
function newest(head) {
  return head === null ? 'none' : `${head.number} ${head.hash}`;
}
