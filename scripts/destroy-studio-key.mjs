// Destroys a studio's key: what it sealed can never be opened again, and nothing more is sealed. From the environment:
// DATABASE_URL, as the API's own role. Says what it would do unless the handle is given twice:
//   npm run destroy-studio-key -- studio-by-the-quay studio-by-the-quay
import { destroyStudioKey, recordAudit, StudioHandle } from '@studio/database';
import { oneConnection } from './services/one-connection.mjs';

const [handle, again] = process.argv.slice(2);
const url = process.env['DATABASE_URL'];
if (url === undefined || handle === undefined) {
  console.error(url === undefined ? 'DATABASE_URL: is missing' : 'usage: destroy-studio-key HANDLE HANDLE');
  process.exit(1);
}
const dataSource = await oneConnection(url, 'destroy-studio-key');
try {
  const studio = await dataSource.manager.findOneBy(StudioHandle, { handle });
  if (studio === null) {
    console.error(`no studio ${handle}`);
    process.exitCode = 1;
  } else if (again !== handle) {
    console.error(`answers, notes, letters and second factors of ${handle} would be lost for good`);
    process.exitCode = 1;
  } else {
    console.log(`${handle}: ${(await destroy(studio.studioId)) ? 'destroyed' : 'was destroyed before'}`);
  }
} finally {
  await dataSource.destroy();
}

/** @param {string} studioId */
function destroy(studioId) {
  return dataSource.transaction(async (tx) => {
    await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
    if (!(await destroyStudioKey(tx, studioId))) return false;
    const ctx = { studioId, userId: null, roles: [], requestId: 'destroy-studio-key' };
    await recordAudit(tx, ctx, { action: 'studio-keys.destroy', recordId: studioId });
    return true;
  });
}
