import { demoStudio } from './demo-studio.js';
import { openStudio } from './open-studio.js';

const ownerUrl = process.env['DATABASE_OWNER_URL'];
if (ownerUrl === undefined) {
  process.stderr.write('DATABASE_OWNER_URL: is missing\n');
  process.exit(1);
}
await openStudio(ownerUrl, demoStudio);
