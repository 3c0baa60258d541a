import { mkdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import path from 'node:path';
import { dataFolder } from '../scripts/services/paths.mjs';

/**
 * @typedef {{ name: string, unit: string, rounds: readonly number[] }} Series the measured values, one per round
 * @typedef {{ figure: string, measured: Series, baseline: Series } &
 *   ({ aim: number } | { atMost: number } | { within: number | null })} Figure the ratio of measured to baseline is aimed to
 *   be at least `aim`, or `atMost`; or what is measured itself is to be `within` so much of its unit, if there is an aim
 */

/**
 * Runs every contender once per round, in turn, so that whatever else the machine does falls on all of them.
 *
 * @template {string} Name
 * @param {number} rounds
 * @param {Record<Name, () => Promise<number>>} contenders
 * @returns {Promise<Record<Name, number[]>>}
 */
export async function inTurn(rounds, contenders) {
  const names = /** @type {Name[]} */ (Object.keys(contenders));
  const values = /** @type {Record<Name, number[]>} */ ({});
  for (const name of names) values[name] = [];
  for (let round = 0; round < rounds; round += 1) {
    for (const name of names) values[name].push(await contenders[name]());
  }
  return values;
}

/**
 * Microseconds a call, over one burst of calls.
 *
 * @param {number} burstMs
 * @param {() => unknown} work answers something, so that it cannot be left out
 */
export async function perCall(burstMs, work) {
  let calls = 0;
  const start = performance.now();
  do {
    if ((await work()) === undefined) throw new Error('nothing was done');
    calls += 1;
  } while (performance.now() - start < burstMs);
  return ((performance.now() - start) * 1000) / calls;
}

/**
 * How often a second, one call after the other, as one person asks.
 *
 * @param {number} seconds
 * @param {() => Promise<unknown>} work
 */
export async function timesPerSecond(seconds, work) {
  const begun = performance.now();
  let done = 0;
  while (performance.now() - begun < seconds * 1000) {
    await work();
    done += 1;
  }
  return (done * 1000) / (performance.now() - begun);
}

/**
 * The table, and the same as JSON beside the logs. A ratio is taken within each round.
 *
 * @param {readonly Figure[]} figures
 * @param {string} [file] name of the JSON file
 */
export function printFigures(figures, file = 'figures') {
  const rows = figures.map(({ figure, measured, baseline, ...aim }) => {
    const ratios = measured.rounds.map((value, round) => value / (baseline.rounds[round] ?? NaN));
    return {
      figure,
      measured,
      baseline,
      ...aim,
      ratio: median(ratios),
      least: Math.min(...ratios),
      most: Math.max(...ratios),
    };
  });
  console.log(`\n| figure | measured | baseline | ratio (least–most) | aim |\n|---|---|---|---|---|`);
  for (const { figure, measured, baseline, ratio, least, most, ...aim } of rows) {
    const cells = [
      figure,
      `${inShort(median(measured.rounds))} ${measured.unit} (${measured.name})`,
      `${inShort(median(baseline.rounds))} ${baseline.unit} (${baseline.name})`,
      `**${ratio.toFixed(2)}** (${least.toFixed(2)}–${most.toFixed(2)})`,
      aimOf(aim, measured.unit),
    ];
    console.log(`| ${cells.join(' | ')} |`);
  }
  mkdirSync(dataFolder('bench'), { recursive: true });
  const json = path.join(dataFolder('bench'), `${file}.json`);
  const machine = { node: process.version, cores: cpus().length, model: cpus()[0]?.model };
  writeFileSync(json, JSON.stringify({ at: new Date().toISOString(), machine, figures: rows }, null, 2));
  console.log(`\n${machine.cores} cores, ${machine.model ?? '?'}, Node ${machine.node}; as JSON: ${json}`);
}

/** @param {number} value */
const inShort = (value) => value.toFixed(value < 10 ? 2 : 0);

/** @param {{ aim: number } | { atMost: number } | { within: number | null }} aim @param {string} unit */
function aimOf(aim, unit) {
  if ('aim' in aim) return `≥ ${aim.aim.toFixed(1)}`;
  if ('atMost' in aim) return `≤ ${aim.atMost}`;
  return aim.within === null ? '' : `≤ ${aim.within} ${unit}`;
}

/** @param {readonly number[]} values */
export function median(values) {
  const ordered = [...values].sort((one, other) => one - other);
  const middle = ordered.length >> 1;
  const upper = ordered[middle] ?? NaN;
  return ordered.length % 2 === 1 ? upper : (upper + (ordered[middle - 1] ?? NaN)) / 2;
}
