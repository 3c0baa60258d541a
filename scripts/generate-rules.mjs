// Writes libs/clinical-flags/RULES.md from the rules. With --check it writes nothing and exits 1 when the file is not
// what the rules say. Reads the compiled library: run `npm run build` first.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { conditionInWords, rules, ruleSetVersion, routes } from '../libs/clinical-flags/dist/index.js';
import { formatted } from './services/formatted.mjs';

const target = join(import.meta.dirname, '../libs/clinical-flags/RULES.md');

/** @param {string} id */
const inWords = (id) => id.replaceAll('_', ' ');

/** @param {import('../libs/clinical-flags/dist/index.js').Permission} permission */
function allowed({ level, barred }) {
  return level === 'limited'
    ? `barred: ${barred.map(inWords).join(', ')}`
    : level === 'none'
      ? 'none'
      : 'full';
}

/** @param {import('../libs/clinical-flags/dist/index.js').Rule} rule */
function row({ id, version, area, raisedWhen, permission, source }) {
  const file = `[\`${id}\`](src/rules/${id}.ts) v${version}`;
  const basis = source.citation.startsWith(source.strength)
    ? source.citation
    : `${source.strength}: ${source.citation}`;
  return `| ${[file, inWords(area), conditionInWords(raisedWhen), allowed(permission), basis]
    .map((cell) => cell.replaceAll('|', '\\|'))
    .join(' | ')} |`;
}

const page = `# Rules

Written by \`node scripts/generate-rules.mjs\` from the rules: change those, not this page.

Rule set ${ruleSetVersion}, ${rules.length} rules. They sort and route; they do not diagnose. "Don't know" counts as yes on the way to
an emergency or to a doctor the same day; a question that was not answered leaves a rule open, and an open rule bars what
it would bar if it were raised.

${routes
  .map(
    (route) => `## ${inWords(route)}

| Rule | Area | Raised when | What the fit may do | Rests on |
| --- | --- | --- | --- | --- |
${rules
  .filter((rule) => rule.route === route)
  .map(row)
  .join('\n')}
`,
  )
  .join('\n')}
## Signed

Rule set ${ruleSetVersion} has to be signed off by clinicians of the country where it is used.

| Name | Registration | Date |
| --- | --- | --- |
| | | |
`;

const text = await formatted(target, page);

if (!process.argv.includes('--check')) {
  writeFileSync(target, text);
} else if (readFileSync(target, 'utf8') !== text) {
  console.error('RULES.md is not what the rules say: run node scripts/generate-rules.mjs');
  process.exit(1);
}
