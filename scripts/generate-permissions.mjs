// Writes docs/operations/permissions.md from the table of permissions and the OpenAPI document. With --check it writes
// nothing and exits 1 when the page is not what they say. Reads the compiled API: run `npm run openapi` first.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { permissionOf, permissions, shownTo } from '../apps/api/dist/permissions/permission-table.js';
import { formatted } from './services/formatted.mjs';

const root = join(import.meta.dirname, '..');
const target = join(root, 'docs/operations/permissions.md');

/** @typedef {import('../apps/api/dist/permissions/permission-table.js').OperationId} OperationId */

/** @typedef {Record<string, { operationId: OperationId, summary: string, tags?: string[] }>} PathItem */

/** @type {unknown} */
const parsed = JSON.parse(readFileSync(join(root, 'libs/api-client/openapi.json'), 'utf8'));
const document = /** @type {{ paths: Record<string, PathItem> }} */ (parsed);
const described = Object.values(document.paths).flatMap((item) => Object.values(item));
const pages = /** @type {OperationId[]} */ (Object.keys(permissions)).filter(
  (id) => !described.some(({ operationId }) => operationId === id),
);

const grants = /** @type {const} */ (['owner', 'fitter', 'front_desk', 'clinician']);

/** @param {OperationId} id @param {string} what */
function row(id, what) {
  const { who, inPerson = false, health = false } = permissionOf(id);
  const may = grants.map((grant) =>
    who === 'anyone' || who.includes(grant) || (grant === 'clinician' && who.includes('fitter')) ? '✓' : '',
  );
  const besides = [who === 'anyone' && 'anyone', inPerson && 'in person', health && 'health'].filter(Boolean);
  return `| ${[`\`${id}\``, what.replaceAll('|', '\\|'), ...may, besides.join(', ')].join(' | ')} |`;
}

const head = `| Operation | What | Owner | Fitter | Front desk | Clinician | |
| --- | --- | :-: | :-: | :-: | :-: | --- |`;

const tags = [...new Set(described.map(({ tags = ['Other'] }) => tags[0]))].sort();
const page = `# Who may do what

Written by \`node scripts/generate-permissions.mjs\` from \`apps/api/src/permissions/permission-table.ts\`: change that, not
this page. The guard asks that table; a test asks every operation as everybody.

A clinician is a fitter whom an owner vouched for. An API key may what its roles may, a reading one only \`GET\`, and nothing
that is **in person**. Reads of **health** are written down, and withheld while the person has their record restricted, but
from who opened it with a reason. Another studio's record is answered like a missing one, whoever asks.

Fields marked in an answer are shown to: ${Object.entries(shownTo)
  .map(([mark, who]) => `**${mark}** ${who.join(', ').replaceAll('_', ' ')}`)
  .join('; ')}. To others they are null, or left out.

${tags
  .map(
    (tag) => `## ${tag ?? ''}

${head}
${described
  .filter(({ tags: [own] = ['Other'] }) => own === tag)
  .map(({ operationId, summary }) => row(operationId, summary))
  .join('\n')}
`,
  )
  .join('\n')}
## Pages of one-time links

${head}
${pages.map((id) => row(id, 'whoever has the link')).join('\n')}
`;

const text = await formatted(target, page);

if (!process.argv.includes('--check')) {
  writeFileSync(target, text);
} else if (readFileSync(target, 'utf8') !== text) {
  console.error('docs/operations/permissions.md is stale: run `node scripts/generate-permissions.mjs`');
  process.exit(1);
}
