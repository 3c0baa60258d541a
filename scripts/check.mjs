// npm run check: format, lint, types, import edges, drift of what is generated or migrated, unit tests.
import { installed } from './services/build.mjs';
import { runChecks } from './services/checks.mjs';
import { launch } from './services/launch.mjs';
import { summary } from './services/summary.mjs';

await launch('npm-check', 'npm run check', async (processes) => {
  await installed(processes);
  const result = await runChecks(processes);
  return summary(result, [result.tests]);
});
