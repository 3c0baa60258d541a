// Writes libs/api-client/openapi.json from the API's code and libs/api-client/src/schema.ts from that document.
// With --check it writes nothing and fails when either is not what the code says.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './services/paths.mjs';

const check = process.argv.includes('--check');
const client = path.join(root, 'libs', 'api-client');
const committed = {
  document: path.join(client, 'openapi.json'),
  schema: path.join(client, 'src', 'schema.ts'),
};

const scratch = mkdtempSync(path.join(root, 'node_modules', '.openapi-'));
try {
  const fresh = { document: path.join(scratch, 'openapi.json'), schema: path.join(scratch, 'schema.ts') };
  /** @type {unknown} */
  const api = await import(path.join(root, 'apps', 'api', 'dist', 'document-of-api.js'));
  const { documentOfApi } = /** @type {{ documentOfApi: () => Promise<object> }} */ (api);
  writeFileSync(fresh.document, `${JSON.stringify(await documentOfApi(), null, 2)}\n`);
  const generator = path.join(root, 'node_modules', 'openapi-typescript', 'bin', 'cli.js');
  execFileSync(process.execPath, [generator, fresh.document, '--output', fresh.schema], { stdio: 'pipe' });

  for (const name of /** @type {const} */ (['document', 'schema'])) {
    const text = readFileSync(fresh[name], 'utf8');
    if (!check) {
      writeFileSync(committed[name], text);
    } else if (text !== readFileSync(committed[name], 'utf8')) {
      console.error(`${path.relative(root, committed[name])} is stale: run \`npm run openapi\``);
      process.exitCode = 1;
    }
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
