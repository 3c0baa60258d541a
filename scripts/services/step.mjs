const terminal = process.stdout.isTTY;

/** @type {Map<string, { began: number, told: number }>} */
const running = new Map();
/** @type {NodeJS.Timeout | undefined} */
let ticker;

/**
 * Does `work` and says how long it took. Work slower than a second is named while it runs: with a running count on
 * a terminal, with a line every ten seconds in a log.
 *
 * @template T
 * @param {string} title
 * @param {() => T | Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(title, work) {
  const began = performance.now();
  running.set(title, { began, told: -Infinity });
  ticker ??= setInterval(tellSlow, 1000);
  let mark = '✗';
  try {
    const result = await work();
    mark = '✓';
    return result;
  } finally {
    running.delete(title);
    console.log(`${terminal ? '\r\u001B[K' : ''}${mark} ${title} (${seconds(began).toFixed(1)} s)`);
    if (running.size === 0) {
      clearInterval(ticker);
      ticker = undefined;
    }
  }
}

function tellSlow() {
  const slow = [...running].filter(([, { began }]) => seconds(began) >= 1);
  if (terminal) {
    const line = slow.map(([title, { began }]) => `${title} ${seconds(began).toFixed(0)} s`).join(', ');
    process.stdout.write(`\r… ${line}\u001B[K`);
    return;
  }
  for (const [title, state] of slow) {
    if (seconds(state.told) < 10) continue;
    console.log(`… ${title}${state.told === -Infinity ? '' : ` ${seconds(state.began).toFixed(0)} s`}`);
    state.told = performance.now();
  }
}

/** @param {number} since */
function seconds(since) {
  return (performance.now() - since) / 1000;
}
