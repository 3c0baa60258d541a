// npm run audit: asks the registry for known vulnerabilities in what is run (not in tools) and exits with 1 if there is one
// that is high or critical. Without a registry that answers it says that nothing was looked at, and exits with 0; with
// AUDIT=required that is a failure too.
import { spawnSync } from 'node:child_process';
import { root } from './services/paths.mjs';

const { stdout } = spawnSync('npm', ['audit', '--omit=dev', '--json'], { cwd: root, encoding: 'utf8' });
const counts = countsOf(stdout);
if (counts === null) {
  console.log('known vulnerabilities: skipped, the registry does not answer such questions here');
  if (process.env['AUDIT'] === 'required') process.exitCode = 1;
} else {
  const { low = 0, moderate = 0, high = 0, critical = 0 } = counts;
  console.log(`known vulnerabilities: ${critical} critical, ${high} high, ${moderate} moderate, ${low} low`);
  if (high + critical > 0) {
    console.log('see `npm audit --omit=dev`');
    process.exitCode = 1;
  }
}

/**
 * @param {string} report
 * @returns {Record<string, number> | null} null when there is no report in it
 */
function countsOf(report) {
  try {
    /** @type {unknown} */
    const read = JSON.parse(report);
    const { metadata } = /** @type {{ metadata?: { vulnerabilities?: Record<string, number> } }} */ (read);
    return metadata?.vulnerabilities ?? null;
  } catch {
    return null;
  }
}
