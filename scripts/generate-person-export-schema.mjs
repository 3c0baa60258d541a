// Writes docs/person-export.schema.json, the JSON Schema of the copy a person is given, from the entities. With --check
// it writes nothing and exits 1 when the file is not what they say.
import { entityMetadatas, personExportSchema } from '@studio/database';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { formatted } from './services/formatted.mjs';
import { root } from './services/paths.mjs';

const target = path.join(root, 'docs', 'person-export.schema.json');
const fresh = await formatted(target, JSON.stringify(personExportSchema(await entityMetadatas())));
if (!process.argv.includes('--check')) {
  writeFileSync(target, fresh);
} else if (!existsSync(target) || readFileSync(target, 'utf8') !== fresh) {
  console.error(
    'docs/person-export.schema.json is stale: run `node scripts/generate-person-export-schema.mjs`',
  );
  process.exitCode = 1;
}
