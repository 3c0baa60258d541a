// npm run backup:key -- FILE: draws the key of the backups. FILE gets the secret half, to be kept apart from the server;
// the public half is printed, for BACKUP_RECIPIENTS.
import { newBackupKey } from '@studio/backups';
import { writeFileSync } from 'node:fs';

const file = process.argv[2];
if (file === undefined) {
  console.error('npm run backup:key -- FILE');
  process.exit(1);
}
const { identity, recipient } = await newBackupKey();
// Refused when the file is there: it may hold the key of backups that exist.
writeFileSync(file, `# public key: ${recipient}\n${identity}\n`, { mode: 0o600, flag: 'wx' });
console.log(`BACKUP_RECIPIENTS=${recipient}`);
