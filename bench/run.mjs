// npm run bench               every figure: five rounds of five seconds
// npm run bench -- --quick    three rounds of two seconds
import { parseArgs } from 'node:util';
import { built, installed } from '../scripts/services/build.mjs';
import { launch } from '../scripts/services/launch.mjs';

const { values: options } = parseArgs({ options: { quick: { type: 'boolean', default: false } } });

await launch('bench', 'a benchmark', async (processes) => {
  await installed(processes);
  await built(processes);
  // Not before: they import packages.
  const { fitMathFigures } = await import('./fit-math/figures.mjs');
  const { readByKey } = await import('./reads/read-by-key.mjs');
  const { printFigures } = await import('./figures.mjs');
  printFigures([
    ...(await fitMathFigures(
      options.quick ? { rounds: 3, turns: 15, burstMs: 3 } : { rounds: 7, turns: 31, burstMs: 5 },
    )),
    ...(await readByKey(processes, options.quick ? { rounds: 3, seconds: 2 } : { rounds: 5, seconds: 5 })),
  ]);
  return 0;
});
