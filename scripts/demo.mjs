// npm run demo                      plays the studio's job on real parts, then keeps serving
// npm run demo -- --once            ends after the story; exit code 0 only if every step of it held
// npm run demo -- --services-only   PostgreSQL, Redis and the mail catcher alone, for work on the apps
import { parseArgs } from 'node:util';
import { installed } from './services/build.mjs';
import { launch } from './services/launch.mjs';

const { values: options } = parseArgs({
  options: {
    once: { type: 'boolean', default: false },
    'services-only': { type: 'boolean', default: false },
  },
});

await launch('demo', 'the demo', async (processes, control) => {
  await installed(processes);
  // Not before: it imports packages.
  const { runDemo } = await import('./services/demo.mjs');
  return runDemo(processes, control, { once: options.once, apps: !options['services-only'] });
});
