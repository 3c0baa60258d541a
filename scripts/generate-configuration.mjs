// Writes docs/operations/configuration.md from the checks of the environment. With --check it writes nothing and exits 1
// when the file is not what they say. Reads the compiled library: run `npm run build` first.
import { configurationReference } from '@studio/config';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatted } from './services/formatted.mjs';

const target = join(import.meta.dirname, '../docs/operations/configuration.md');

/** @param {import('@studio/config').Variable} variable */
function row({ name, readBy, standard, required, meaning }) {
  const without = required ? 'must be given' : standard === null ? '' : `\`${standard}\``;
  return `| \`${name}\` | ${readBy.join(', ')} | ${without} | ${meaning.replaceAll('|', '\\|')} |`;
}

const page = `# Configuration

Written by \`node scripts/generate-configuration.mjs\` from the checks of the environment: change those, not this page.

Each process reads its environment once, when it starts, and does not start when something is missing or malformed; it
then names the variables and never their values. Secrets belong in a file that only the service can read, or in the
secret store of whatever runs the containers. \`scripts/README.md\` tells of the variables of the demo and the tests.

| Variable | Read by | Without it | Meaning |
| --- | --- | --- | --- |
${configurationReference().map(row).join('\n')}
`;
const written = await formatted(target, page);

if (process.argv.includes('--check')) {
  if (readFileSync(target, 'utf8') !== written) {
    console.error('docs/operations/configuration.md is stale: run `node scripts/generate-configuration.mjs`');
    process.exit(1);
  }
} else {
  writeFileSync(target, written);
}
