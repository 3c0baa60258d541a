// node bench/grow/run.mjs --share 0.01    200 studios with ten clients and fifty visits each; 0.1 and 1: ten and a
//                                         hundred times as many. What was cut off goes on where it was.
// --studios 20, --seed 2                  of another size, from the beginning
// --keep                                  leaves the database, to be grown further by the next run
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { startApi } from '../../scripts/services/apps.mjs';
import { built, installed } from '../../scripts/services/build.mjs';
import { launch } from '../../scripts/services/launch.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { postgresService } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';

const { values: options } = parseArgs({
  options: {
    share: { type: 'string', default: '0.01' },
    studios: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    keep: { type: 'boolean', default: false },
  },
});
const size = { seed: Number(options.seed), studios: Number(options.studios) };
const asked = Number(options.share);
const shares = [0.01, 0.1].filter((share) => share < asked).concat(asked);
const database = 'studio_bench_grow';

await launch('bench', 'a benchmark', async (processes) => {
  await installed(processes);
  await built(processes);
  // Not before: they import packages.
  const { growTo, openDatabase, sizesOf } = await import('./database.mjs');
  const { measure } = await import('./measure.mjs');
  const { printCosts } = await import('./costs.mjs');
  const secrets = secretsOf(processes.folder);
  const adminUrl = await postgresService(processes, { throwaway: true });
  const { admin, urls } = await openDatabase(processes, { adminUrl, database, secrets, size });
  const results = path.join(processes.folder, 'grow');
  mkdirSync(results, { recursive: true });
  let apiUrl;
  for (const share of shares) {
    const file = path.join(results, `${size.studios}-studios-seed-${size.seed}-${share * 100}-percent.json`);
    if (existsSync(file)) continue;
    await growTo(admin, { ...size, share });
    await step('VACUUM ANALYZE', () => admin.query('VACUUM ANALYZE'));
    apiUrl ??= await startApi(processes, { urls, secrets });
    const options = { apiUrl, logFile: path.join(processes.folder, 'logs', 'postgres.log') };
    const costs = await step(`measuring at ${share * 100} %`, () => measure(admin, options));
    const measured = { at: new Date().toISOString(), ...size, share, tables: await sizesOf(admin), costs };
    writeFileSync(file, JSON.stringify(measured, null, 1));
  }
  const all = shares.map((share) => {
    /** @type {unknown} */
    const found = JSON.parse(
      readFileSync(
        path.join(results, `${size.studios}-studios-seed-${size.seed}-${share * 100}-percent.json`),
        'utf8',
      ),
    );
    return /** @type {import('./costs.mjs').Measured} */ (found);
  });
  await admin.end();
  if (!options.keep) await step('dropping the database', () => dropDatabase(adminUrl, database));
  return printCosts(all, path.join(results, 'cost-curves.svg'));
});
