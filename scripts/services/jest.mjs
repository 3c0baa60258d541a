import { rmSync } from 'node:fs';
import path from 'node:path';
import { hasCode, readJson } from './json.mjs';
import { LaunchError } from './launch-error.mjs';
import { root } from './paths.mjs';

/** @typedef {{ passed: number, failed: number, skipped: number }} Counts */

/** @type {Counts} */
export const noTests = { passed: 0, failed: 0, skipped: 0 };

/**
 * Runs the tests of one of Jest's projects.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {'unit' | 'integration'} project
 * @param {{ show: boolean, paths?: readonly string[], env?: NodeJS.ProcessEnv }} options `show`: whether Jest's output
 *   is shown as it comes, or only when a test fails; `paths`: some of the files only
 * @returns {Promise<Counts>} a file that could not be run counts as one failed test
 */
export async function jest(processes, project, { show, paths = [], env = {} }) {
  const file = path.join(processes.folder, `jest-${project}.json`);
  rmSync(file, { force: true });
  const args = [
    'run',
    '--silent',
    'jest',
    '--',
    ...paths,
    '--selectProjects',
    project,
    '--json',
    `--outputFile=${file}`,
  ];
  try {
    await processes.run(`jest-${project}`, 'npm', args, {
      ...{ cwd: root, show, lines: 300 },
      env: { ...process.env, ...env },
    });
    return countsOf(file);
  } catch (error) {
    if (!(error instanceof LaunchError)) throw error;
    console.log(error.message);
    const counts = countsOf(file);
    return { ...counts, failed: Math.max(counts.failed, 1) };
  }
}

/**
 * @param {string} file
 * @returns {Counts}
 */
function countsOf(file) {
  try {
    const report =
      /** @type {Record<'numPassedTests' | 'numFailedTests' | 'numPendingTests' | 'numTodoTests' | 'numRuntimeErrorTestSuites', number>} */ (
        readJson(file)
      );
    return {
      passed: report.numPassedTests,
      failed: report.numFailedTests + report.numRuntimeErrorTestSuites,
      skipped: report.numPendingTests + report.numTodoTests,
    };
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return noTests;
    throw error;
  }
}
