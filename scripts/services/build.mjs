import path from 'node:path';
import { needsBundling } from './bundle.mjs';
import { waitForLock } from './lock.mjs';
import { missingPackages } from './packages.mjs';
import { root } from './paths.mjs';
import { step } from './step.mjs';

/** @typedef {import('./processes.mjs').Processes} Processes */

/**
 * What the lock file names and the tree lacks, installed.
 *
 * @param {Processes} processes
 */
export async function installed(processes) {
  if (missingPackages().length === 0) return;
  await oneAtATime(async () => {
    // Counted again: whoever we waited for may have installed them.
    const missing = missingPackages().length;
    if (missing === 0) return;
    await step(`installing npm packages (${missing} missing or of another version)`, () =>
      processes.run('npm-ci', 'npm', ['ci', '--no-audit', '--no-fund'], { cwd: root }),
    );
  });
}

/**
 * Libraries and apps compiled, as far as they changed; with all projects each app is put into one file as well.
 *
 * @param {Processes} processes
 * @param {readonly string[]} [projects] all of them, if none is named
 */
export async function built(processes, projects = []) {
  const tsc = path.join(root, 'node_modules', 'typescript-7', 'bin', 'tsc');
  await oneAtATime(async () => {
    await step('compiling', () =>
      processes.run(
        'tsc',
        process.execPath,
        [tsc, '-b', ...(projects.length > 0 ? projects : ['tsconfig.build.json'])],
        { cwd: root },
      ),
    );
    if (projects.length > 0 || !needsBundling()) return;
    const script = path.join(root, 'scripts', 'bundle.mjs');
    await step('bundling', () => processes.run('bundle', process.execPath, [script], { cwd: root }));
  });
}

/**
 * Two runs share one tree: an installation begins by taking packages away, and a compiler writes what another reads.
 *
 * @param {() => Promise<void>} work
 */
async function oneAtATime(work) {
  const file = path.join(root, '.data', 'build', 'lock.json');
  const release = await waitForLock(file, 'an installation or a build', { atMostMs: 10 * 60_000 });
  await work().finally(release);
}
