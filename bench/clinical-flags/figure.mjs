/** @typedef {{ name: string, work: () => number }} Contender */

const rounds = 9;
const turnMs = 200;

/** Microseconds a call, over one turn. @param {Contender} contender */
function turn({ work }) {
  let calls = 0;
  let sum = 0;
  const start = performance.now();
  while (performance.now() - start < turnMs) {
    for (let repeat = 0; repeat < 20; repeat += 1) sum += work();
    calls += 20;
  }
  if (sum === 0) throw new Error('nothing was done');
  return ((performance.now() - start) * 1000) / calls;
}

/** @param {number[]} values */
const median = (values) => [...values].sort((one, other) => one - other)[values.length >> 1] ?? NaN;

/**
 * Times both in turn and prints microseconds a call and their ratio; exits 1 when a call takes a millisecond or longer.
 *
 * @param {Contender} measured
 * @param {Contender} baseline
 */
export function printSmallFigure(measured, baseline) {
  turn(measured);
  turn(baseline);
  const pairs = Array.from({ length: rounds }, () => ({ of: turn(measured), bare: turn(baseline) }));
  const ofUs = median(pairs.map(({ of }) => of));
  const bareUs = median(pairs.map(({ bare }) => bare));
  const ratios = pairs.map(({ of, bare }) => of / bare);
  console.log(`${measured.name}: ${ofUs.toFixed(1)} µs; ${baseline.name}: ${bareUs.toFixed(1)} µs`);
  console.log(
    `ratio ${median(ratios).toFixed(1)} (${Math.min(...ratios).toFixed(1)}–${Math.max(...ratios).toFixed(1)})`,
  );
  if (ofUs >= 1000) process.exitCode = 1;
}
