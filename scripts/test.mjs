// npm test: everything npm run check does, then the tests that need PostgreSQL, Redis and mail.
import { installed } from './services/build.mjs';
import { runChecks } from './services/checks.mjs';
import { jest } from './services/jest.mjs';
import { launch } from './services/launch.mjs';
import { summary } from './services/summary.mjs';

await launch('npm-test', 'npm test', async (processes) => {
  await installed(processes);
  const result = await runChecks(processes);
  const integration = await jest(processes, 'integration', { show: true });
  return summary(result, [result.tests, integration]);
});
