const terminal = process.stdout.isTTY;

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
  const seconds = () => (performance.now() - began) / 1000;
  let ticks = 0;
  const timer = setInterval(() => {
    if (terminal) process.stdout.write(`\r… ${title} ${seconds().toFixed(0)} s `);
    else if (ticks % 10 === 0) console.log(`… ${title}${ticks === 0 ? '' : ` ${seconds().toFixed(0)} s`}`);
    ticks += 1;
  }, 1000);
  try {
    const result = await work();
    console.log(`${lineStart(ticks)}✓ ${title} (${seconds().toFixed(1)} s)`);
    return result;
  } catch (error) {
    console.log(`${lineStart(ticks)}✗ ${title} (${seconds().toFixed(1)} s)`);
    throw error;
  } finally {
    clearInterval(timer);
  }
}

/** @param {number} ticks */
function lineStart(ticks) {
  return terminal && ticks > 0 ? '\r\u001B[K' : '';
}
