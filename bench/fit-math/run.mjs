// node bench/fit-math/run.mjs             after npm run tsc -- -b libs/fit-math
// node bench/fit-math/run.mjs --quick     fewer rounds
import { parseArgs } from 'node:util';
import { printFigures } from '../figures.mjs';
import { fitMathFigures } from './figures.mjs';

const { values: options } = parseArgs({ options: { quick: { type: 'boolean', default: false } } });
printFigures(
  await fitMathFigures(
    options.quick ? { rounds: 3, turns: 15, burstMs: 3 } : { rounds: 7, turns: 31, burstMs: 5 },
  ),
  'fit-math',
);
