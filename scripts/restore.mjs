// npm run restore -- FILE          into the database DATABASE_NAME, which must not be there yet, and an empty storage
// npm run restore -- FILE --drill  into a database and a folder of their own, which are removed again: does the backup hold?
// From the environment: DATABASE_URL (an administrator's), DATABASE_NAME, FITTING_OWNER_PASSWORD, FITTING_API_PASSWORD,
// FITTING_WORKER_PASSWORD, BACKUP_IDENTITY_FILE and where files are to be kept (STORAGE_…). Exits with 1 when what was
// restored is not in order.
import { checkRestored, restoreBackup } from '@studio/backups';
import { restoreConfig } from '@studio/config';
import { createStorage, FolderStorage } from '@studio/storage';
import { randomBytes } from 'node:crypto';
import { createReadStream, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { tellAndFail } from './services/archives.mjs';
import { dropDatabase, hasDatabase, prepareDatabase, urlOf } from './services/roles.mjs';

try {
  const { values, positionals } = parseArgs({
    options: { drill: { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  const [file] = positionals;
  if (file === undefined) throw new Error('npm run restore -- FILE [--drill]');
  const config = restoreConfig(process.env);
  if (values.drill) await drill(file, config);
  else await restore(file, config, config.database, await createStorage(config.storage));
} catch (error) {
  tellAndFail(error);
}

/**
 * @param {string} file
 * @param {import('@studio/config').RestoreConfig} config
 */
async function drill(file, config) {
  const database = `restore_drill_${randomBytes(6).toString('hex')}`;
  const folder = mkdtempSync(path.join(tmpdir(), 'restore-drill-'));
  try {
    await restore(file, config, database, new FolderStorage(folder));
  } finally {
    rmSync(folder, { recursive: true });
    await dropDatabase(config.adminUrl, database);
  }
}

/**
 * @param {string} file
 * @param {import('@studio/config').RestoreConfig} config
 * @param {string} database
 * @param {import('@studio/storage').ObjectStorage} storage
 */
async function restore(file, { adminUrl, passwords, identityFile }, database, storage) {
  if (await hasDatabase(adminUrl, database)) throw new Error(`the database ${database} is there already`);
  const identities = readFileSync(identityFile, 'utf8')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
  const urls = await prepareDatabase({ adminUrl, database, passwords });
  const { about, tables, objects } = await restoreBackup({
    adminUrl: urlOf(adminUrl, { database }),
    ownerUrl: urls.ownerUrl,
    storage,
    archive: createReadStream(file),
    identities,
  }).catch(async (/** @type {unknown} */ error) => {
    // Nobody is to take half a database for one.
    await dropDatabase(adminUrl, database);
    throw error;
  });
  const rows = tables.reduce((sum, table) => sum + table.rows, 0);
  console.log(`restored the state of ${about.madeAt} into ${database}`);
  console.log(`${tables.length} tables, ${rows} rows, ${objects.length} files: each as it was`);
  const { studios, wrong } = await checkRestored(urls);
  for (const { handle, signatures, brokenRecords, seals, brokenSeals } of studios) {
    console.log(
      `${handle}: ${signatures} signatures, ${brokenRecords} broken; ${seals} seals, ${brokenSeals} broken`,
    );
  }
  if (wrong.length > 0) throw new Error(wrong.join('\n'));
  console.log('the apps’ roles are bound by row-level security and own nothing');
}
