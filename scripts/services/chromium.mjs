import { LaunchError } from './launch-error.mjs';
import { findProgram, installPackage, isDebian, isRoot } from './system-package.mjs';

const find = () => findProgram(['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']);

/**
 * A browser for the tests of the pages. A build machine that runs as root installs the system's; elsewhere those tests
 * are left out when there is none, since nothing else needs it.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @returns {Promise<string | null>}
 */
export async function browserProgram(processes) {
  const found = find();
  if (found !== null) return found;
  if (process.env['CI'] !== 'true' || !isRoot() || !isDebian()) return null;
  console.log('There is no Chromium here. Installing the system’s package: apt-get install chromium');
  await installPackage(processes, 'chromium').catch((/** @type {unknown} */ error) => {
    if (!(error instanceof LaunchError)) throw error;
    console.log(error.message);
  });
  return find();
}
