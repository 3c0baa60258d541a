/**
 * Prints how it ended. A check that failed counts among the failed of the last line, so that it never reads well
 * when the run is not.
 *
 * @param {Pick<import('./checks.mjs').CheckResult, 'held' | 'failed'>} checks
 * @param {readonly import('./jest.mjs').Counts[]} runs
 * @returns {number} exit code
 */
export function summary({ held, failed }, runs) {
  const sum = (/** @type {keyof import('./jest.mjs').Counts} */ kind) =>
    runs.reduce((total, counts) => total + counts[kind], 0);
  // The unit tests are one of the checks and counted by themselves.
  const failedChecks = failed.filter((name) => name !== 'unit tests');
  const allFailed = sum('failed') + failedChecks.length;
  console.log(`\n${held.length} of ${held.length + failed.length} checks held.`);
  if (failed.length > 0) console.log(`Failed: ${failed.join('; ')}.`);
  console.log(`${sum('passed')} passed, ${allFailed} failed, ${sum('skipped')} skipped`);
  return allFailed === 0 ? 0 : 1;
}
