import { migrate } from './run-migrations.js';

const ownerUrl = process.env['DATABASE_OWNER_URL'];
if (ownerUrl === undefined) {
  process.stderr.write('DATABASE_OWNER_URL: is missing\n');
  process.exit(1);
}
const ran = await migrate({ ownerUrl, testClock: process.env['TEST_CLOCK'] === '1' });
process.stdout.write(ran.length === 0 ? 'schema is up to date\n' : `${ran.join('\n')}\n`);
