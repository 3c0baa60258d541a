// npm run backup -- FILE: the database and the stored files in one encrypted archive. From the environment: DATABASE_URL
// (an administrator's), DATABASE_NAME, BACKUP_RECIPIENTS and where files are kept, as the API has it (STORAGE_…).
import { makeBackup } from '@studio/backups';
import { backupConfig } from '@studio/config';
import { createStorage } from '@studio/storage';
import { createWriteStream, existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { fileHash, inMebibytes, tellAndFail } from './services/archives.mjs';
import { urlOf } from './services/roles.mjs';

const file = process.argv[2];
try {
  if (file === undefined) throw new Error('npm run backup -- FILE');
  if (existsSync(file)) throw new Error(`${file} is there already`);
  const { adminUrl, database, recipients, storage } = backupConfig(process.env);
  // Complete or absent, also when it is interrupted.
  const unfinished = `${file}.unfinished`;
  try {
    const { about, tables, objects } = await makeBackup({
      adminUrl: urlOf(adminUrl, { database }),
      storage: await createStorage(storage),
      recipients,
      output: createWriteStream(unfinished, { mode: 0o600, flags: 'wx', flush: true }),
    });
    renameSync(unfinished, file);
    const rows = tables.reduce((sum, table) => sum + table.rows, 0);
    console.log(`${file}: ${database} as of ${about.madeAt}, ${inMebibytes(statSync(file).size)}`);
    console.log(`${tables.length} tables, ${rows} rows, ${objects.length} files`);
    // Whoever may write where backups are kept could lay another in its place.
    console.log(`sha256 ${await fileHash(file)}`);
  } finally {
    rmSync(unfinished, { force: true });
  }
} catch (error) {
  tellAndFail(error);
}
