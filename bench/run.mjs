// npm run bench               every figure: five rounds of five seconds
// npm run bench -- --quick    three rounds of a second, of a smaller record
// npm run bench -- --only reviews --follow-ups 1000000
import { parseArgs } from 'node:util';
import { built, installed } from '../scripts/services/build.mjs';
import { launch } from '../scripts/services/launch.mjs';

const { values: options } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    only: { type: 'string' },
    'follow-ups': { type: 'string' },
  },
});

await launch('bench', 'a benchmark', async (processes) => {
  await installed(processes);
  await built(processes);
  // Not before: they import packages.
  const { availability } = await import('./availability/availability.mjs');
  const { booking } = await import('./desk/booking.mjs');
  const { cleatPlanByApi } = await import('./calculations/cleat-plan.mjs');
  const { clinicalFlagsFigures } = await import('./clinical-flags/figures.mjs');
  const { fitMathFigures } = await import('./fit-math/figures.mjs');
  const { mailQueue } = await import('./mail-queue/mail-queue.mjs');
  const { readByKey } = await import('./reads/read-by-key.mjs');
  const { rideDataFigures } = await import('./ride-data/figures.mjs');
  const { reviews } = await import('./reviews/reviews.mjs');
  const { start } = await import('./start/start.mjs');
  const { wholeRecords } = await import('./reads/whole-records.mjs');
  const { printFigures } = await import('./figures.mjs');
  const length = options.quick ? { rounds: 3, seconds: 1 } : { rounds: 5, seconds: 5 };
  const followUps = Number(options['follow-ups'] ?? (options.quick ? 50_000 : 100_000));
  const turns = options.quick ? { rounds: 3, turns: 15, burstMs: 3 } : { rounds: 7, turns: 31, burstMs: 5 };
  const benches = {
    'fit-math': () => fitMathFigures(turns),
    'clinical-flags': () => clinicalFlagsFigures({ rounds: turns.rounds, burstMs: 200 }),
    'ride-data': () => rideDataFigures({ rounds: turns.rounds, burstMs: 500 }),
    'mail-queue': () =>
      mailQueue(processes, { rounds: turns.rounds, mails: options.quick ? 300 : 2000, latencies: [0, 25] }),
    reads: () => readByKey(processes, { ...length, clients: options.quick ? 50_000 : 200_000 }),
    records: () => wholeRecords(processes, length),
    'cleat-plan': () => cleatPlanByApi(processes, length),
    booking: () => booking(processes, length),
    availability: () => availability(processes, length),
    reviews: () => reviews(processes, { ...length, followUps }),
    start: () => start(processes, { ...length, demos: options.quick ? 1 : 3 }),
  };
  const figures = [];
  for (const [name, bench] of Object.entries(benches)) {
    if (options.only === undefined || options.only === name) figures.push(...(await bench()));
  }
  printFigures(figures);
  return 0;
});
