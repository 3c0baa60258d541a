// npm run spread                 an installation on the parts of several machines, as real processes on this one:
//                                the e2e suite on it, then a failover of each part under load
// npm run spread -- --suite      only the suite; --failover: only the failovers
import { parseArgs } from 'node:util';
import { installed } from './services/build.mjs';
import { jest } from './services/jest.mjs';
import { launch } from './services/launch.mjs';

const { values: only } = parseArgs({
  options: { suite: { type: 'boolean', default: false }, failover: { type: 'boolean', default: false } },
});

await launch('spread', 'npm run spread', async (processes) => {
  await installed(processes);
  // Not before: it imports packages.
  const { requireSpreadPrograms } = await import('./services/spread.mjs');
  requireSpreadPrograms();
  const runs = [];
  for (const [name, folder] of /** @type {const} */ ([
    ['suite', 'tests/e2e'],
    ['failover', 'tests/spread'],
  ])) {
    if ((only.suite || only.failover) && !only[name]) continue;
    runs.push(await jest(processes, 'integration', { show: true, paths: [folder], env: { SPREAD: name } }));
  }
  for (const { passed, failed, skipped } of runs) {
    console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
  }
  return runs.every(({ failed }) => failed === 0) ? 0 : 1;
});
