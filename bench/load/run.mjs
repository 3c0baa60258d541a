// node bench/load/run.mjs             a mixed day: finds the knee, then ten minutes at half of it and at nine tenths
// node bench/load/run.mjs --quick     the same in a few minutes: shorter than a leak would need to show
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { built, installed } from '../../scripts/services/build.mjs';
import { launch } from '../../scripts/services/launch.mjs';
import { dataFolder } from '../../scripts/services/paths.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { step } from '../../scripts/services/step.mjs';
import { seeded } from '../seeded.mjs';
import { arrivals, quantile } from './arrivals.mjs';
import { watch } from './watch.mjs';

const { values: options } = parseArgs({
  options: { quick: { type: 'boolean', default: false }, seed: { type: 'string', default: '1' } },
});
const length = options.quick
  ? { warmUp: 5, stage: 4, holding: 15 }
  : { warmUp: 30, stage: 20, holding: 10 * 60 };

const firstPerSecond = 25;
const growth = 1.25;
/** Beyond the knee: answers come later than that, or more than one in a thousand is not the one expected. */
const worstP99Ms = 500;
const worstFailed = 0.001;
/** What the heap may keep between the beginning and the end of a load. */
const leakMb = 16;

await launch('bench', 'a benchmark', async (processes) => {
  await installed(processes);
  await built(processes);
  // Not before: it imports packages.
  const { mixedDay } = await import('./mixed-day.mjs');
  const random = seeded(Number(options.seed));
  const metricsPort = await freePort(3090);
  const acts = await mixedDay(processes, { metricsPort, random });
  const arrive = () => {
    let left = random() * acts.reduce((sum, { share }) => sum + share, 0);
    const act = acts.find(({ share }) => (left -= share) < 0) ?? acts.at(-1);
    if (!act) throw new Error('nobody does anything');
    return { who: act.who, answer: act.send() };
  };
  /** @param {number} perSecond @param {number} seconds */
  const load = async (perSecond, seconds) => {
    const watching = watch(`http://127.0.0.1:${metricsPort}/metrics`);
    const { answered, seconds: took } = await arrivals({ perSecond, seconds, random }, arrive);
    return reportOf({ perSecond, answered, took, samples: await watching.stop() });
  };

  await step('warming up', () => load(firstPerSecond, length.warmUp));
  const { knee, stages } = await step('looking for the knee', () =>
    findKnee((rate) => load(rate, length.stage)),
  );
  console.log(table(stages));
  const held = [];
  for (const share of [0.5, 0.9]) {
    const title = `holding ${share} of ${knee.toFixed(0)} requests/s`;
    held.push(await step(title, () => load(share * knee, length.holding)));
  }
  console.log(table(held));
  for (const { perSecond, who } of held) {
    console.log(`\nAt ${perSecond.toFixed(0)} requests/s, ms:\n${whoTable(who)}`);
  }
  mkdirSync(dataFolder('bench'), { recursive: true });
  const json = path.join(dataFolder('bench'), 'load.json');
  writeFileSync(json, JSON.stringify({ at: new Date().toISOString(), length, knee, stages, held }, null, 2));
  console.log(`\nAs JSON: ${json}`);
  return held.every(({ failed, leaks }) => failed <= worstFailed && !leaks) ? 0 : 1;
});

/**
 * Slower until it holds, or faster until it does not.
 *
 * @param {(perSecond: number) => Promise<Report>} load
 */
async function findKnee(load) {
  /** @type {Report[]} */
  const stages = [];
  const holds = async (/** @type {number} */ perSecond) => {
    const stage = await load(perSecond);
    stages.push(stage);
    return stage.p99 <= worstP99Ms && stage.failed <= worstFailed;
  };
  let knee = firstPerSecond;
  if (await holds(knee)) {
    while (await holds(knee * growth)) knee *= growth;
  } else {
    do knee /= growth;
    while (!(await holds(knee)));
  }
  return { knee, stages };
}

/** @typedef {ReturnType<typeof reportOf>} Report */

/**
 * @param {{ perSecond: number, answered: readonly import('./arrivals.mjs').Answered[], took: number,
 *   samples: readonly import('./watch.mjs').Sample[] }} load
 */
function reportOf({ perSecond, answered, took, samples }) {
  const who = Object.fromEntries(
    [...new Set(answered.map((one) => one.who))].map((name) => [
      name,
      quantiles(answered.filter((one) => one.who === name)),
    ]),
  );
  const quarter = Math.ceil(samples.length / 4);
  // The least of many is what is left after a collection.
  const [early, late] = [samples.slice(0, quarter), samples.slice(-quarter)].map((some) =>
    Math.min(...some.map(({ heapMb }) => heapMb)),
  );
  return {
    perSecond,
    answeredPerSecond: answered.length / took,
    ...quantiles(answered),
    failed: answered.filter((one) => one.failed).length / Math.max(1, answered.length),
    mostWaiting: Math.max(...samples.map(({ waiting }) => waiting)),
    mostLagMs: Math.max(...samples.map(({ lagMs }) => lagMs)),
    heapMb: { early: early ?? NaN, late: late ?? NaN },
    residentMb: samples.at(-1)?.residentMb ?? NaN,
    leaks: (late ?? NaN) - (early ?? NaN) > leakMb,
    who,
  };
}

/** @param {readonly import('./arrivals.mjs').Answered[]} answered */
function quantiles(answered) {
  const ordered = answered.map(({ ms }) => ms).sort((one, other) => one - other);
  return {
    requests: ordered.length,
    p50: quantile(ordered, 0.5),
    p99: quantile(ordered, 0.99),
    p999: quantile(ordered, 0.999),
  };
}

/** @param {readonly Report[]} reports */
function table(reports) {
  const head =
    '\n| requests/s | answered/s | p50 ms | p99 ms | p99.9 ms | not as expected | waiting for PostgreSQL, most | event loop late, p99 of a second, most ms | heap after collection, early → late, MB | resident, MB |';
  const rows = reports.map((one) =>
    [
      one.perSecond.toFixed(0),
      one.answeredPerSecond.toFixed(0),
      ...[one.p50, one.p99, one.p999].map((ms) => ms.toFixed(0)),
      `${(one.failed * 100).toFixed(2)} %`,
      String(one.mostWaiting),
      one.mostLagMs.toFixed(0),
      `${one.heapMb.early.toFixed(0)} → ${one.heapMb.late.toFixed(0)}`,
      one.residentMb.toFixed(0),
    ].join(' | '),
  );
  return [head, `|${'---|'.repeat(10)}`, ...rows.map((row) => `| ${row} |`)].join('\n');
}

/** @param {Report['who']} who */
function whoTable(who) {
  const rows = Object.entries(who).map(
    ([name, { requests, p50, p99, p999 }]) =>
      `| ${name} | ${requests} | ${p50.toFixed(0)} | ${p99.toFixed(0)} | ${p999.toFixed(0)} |`,
  );
  return ['| who | requests | p50 | p99 | p99.9 |', '|---|---|---|---|---|', ...rows].join('\n');
}
