const cells = 30;

/**
 * Tells how far a long work is: on a terminal as a bar that fills, in a log as a line for each tenth.
 *
 * @param {string} title
 * @param {number} all steps; for none nothing is told
 * @returns {(done: number) => void} to be called after each step
 */
export function progressBar(title, all) {
  const began = performance.now();
  let told = 0;
  return (done) => {
    const share = done / all;
    const spentS = (performance.now() - began) / 1000;
    const left = `${Math.ceil((spentS / share) * (1 - share))} s left`;
    const line = `${title} ${Math.floor(100 * share)} %, ${done < all ? left : `${spentS.toFixed(0)} s`}`;
    if (process.stdout.isTTY) {
      const filled = Math.round(share * cells);
      const end = done < all ? '\u001B[K' : '\u001B[K\n';
      process.stdout.write(`\r${'█'.repeat(filled)}${'░'.repeat(cells - filled)} ${line}${end}`);
    } else if (done === all || Math.floor(10 * share) > told) {
      told = Math.floor(10 * share);
      console.log(line);
    }
  };
}
