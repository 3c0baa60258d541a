// Wraps every studio's key with the newest master key, the first of MASTER_KEYS. From the environment: DATABASE_URL, as
// the API's own role, and MASTER_KEYS (or MASTER_KEYS_FILE) with the new key first and the old one after it. One studio at a time, so it can be
// stopped and run again; once it says that nothing is left, the old key can be taken out of MASTER_KEYS.
import { masterKeysOf } from '@studio/config';
import { MasterKeyMissing, StudioHandle, StudioKeys } from '@studio/database';
import { oneConnection } from './services/one-connection.mjs';

const { DATABASE_URL: url } = process.env;
const masterKeys = masterKeysOf(process.env);
if (url === undefined || masterKeys === null) {
  console.error(
    url === undefined ? 'DATABASE_URL: is missing' : 'MASTER_KEYS: is missing or malformed, see .env.example',
  );
  process.exit(1);
}
const keys = new StudioKeys(masterKeys);
const dataSource = await oneConnection(url, 'rotate-keys');
const counts = { rewrapped: 0, left: 0 };
try {
  for (const { handle, studioId } of await dataSource.manager.find(StudioHandle, {
    order: { handle: 'ASC' },
  })) {
    try {
      const done = await dataSource.transaction(async (tx) => {
        await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
        return keys.rewrap(tx, studioId);
      });
      if (done) counts.rewrapped += 1;
    } catch (error) {
      if (!(error instanceof MasterKeyMissing)) throw error;
      console.error(`${handle}: ${error.message}`);
      counts.left += 1;
    }
  }
} finally {
  await dataSource.destroy();
}
console.log(`${counts.rewrapped} keys wrapped with ${masterKeys[0]?.id ?? ''}, ${counts.left} left`);
process.exitCode = counts.left === 0 ? 0 : 1;
