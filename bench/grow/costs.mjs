import { writeFileSync } from 'node:fs';
import { curves } from './curves.mjs';
import { bigTable } from './measure.mjs';

/**
 * @typedef {import('./measure.mjs').Cost} Cost
 * @typedef {{
 *   at: string, seed: number, studios: number, share: number, costs: Cost[],
 *   tables: import('./database.mjs').TableSize[],
 * }} Measured
 */

/** Of which it is told what they are of. */
const manyRows = 500;

/**
 * The table, and the picture of it.
 *
 * @param {readonly Measured[]} measured from the smallest share to the largest
 * @param {string} svgFile
 * @returns {number} exit code: 1 when a request was refused, or a big table read from end to end
 */
export function printCosts(measured, svgFile) {
  const shares = measured.map(({ share }) => `${share * 100} %`);
  console.log(`\n| | ${shares.join(' | ')} |\n|---|${shares.map(() => '---').join('|')}|`);
  const row = (/** @type {string} */ name, /** @type {(one: Measured) => string} */ spell) => {
    console.log(`| ${name} | ${measured.map(spell).join(' | ')} |`);
  };
  const sum = (/** @type {Measured} */ { tables }, /** @type {'rows' | 'heapBytes' | 'indexBytes'} */ of) =>
    tables.reduce((total, table) => total + table[of], 0);
  row('rows', (one) => sum(one, 'rows').toLocaleString('en'));
  row('GB of tables', (one) => (sum(one, 'heapBytes') / 1e9).toFixed(2));
  row('GB of indexes', (one) => (sum(one, 'indexBytes') / 1e9).toFixed(2));
  for (const { name } of measured.at(-1)?.costs ?? []) {
    row(name, ({ costs }) => {
      const cost = costs.find((one) => one.name === name);
      if (!cost) return '';
      const { ms, rowsRead, mostOf } = cost;
      const read = rowsRead === null ? '' : `, ${rowsRead.toLocaleString('en')} rows`;
      return `${ms.toFixed(1)} ms${read}${(rowsRead ?? 0) > manyRows ? `, most of ${mostOf}` : ''}`;
    });
  }
  writeFileSync(svgFile, curves(measured));
  console.log(
    `\nThe last column's rows are those read of tables with more than ${bigTable.toLocaleString('en')}; ${svgFile}`,
  );

  const wrong = measured.flatMap(({ share, costs }) =>
    costs.flatMap(({ name, refused, wholeTables }) => [
      ...(refused === null ? [] : [`${name} at ${share * 100} %: ${refused}`]),
      ...wholeTables.map((table) => `${name} at ${share * 100} %: reads the whole of ${table}`),
    ]),
  );
  for (const line of wrong) console.error(line);
  return wrong.length === 0 ? 0 : 1;
}
