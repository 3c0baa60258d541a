import { LaunchError } from './launch-error.mjs';
import { jest, noTests } from './jest.mjs';
import { root } from './paths.mjs';
import { step } from './step.mjs';

/**
 * @typedef {import('./processes.mjs').Processes} Processes
 * @typedef {{ held: string[], failed: string[], tests: import('./jest.mjs').Counts }} CheckResult
 */

/** Those that take longest begin first. */
const checks = /** @type {const} */ ([
  ['lint', 'npm', 'run', '--silent', 'lint'],
  ['migrations match entities', 'node', 'scripts/check-migrations.mjs'],
  ['import edges', 'npm', 'run', '--silent', 'deps'],
  ['calculator schemas match the types', 'node', 'scripts/generate-calculations.mjs', '--check'],
  ['OpenAPI document and client match the code', 'node', 'scripts/generate-openapi.mjs', '--check'],
  [
    'schema of a person’s copy matches the entities',
    'node',
    'scripts/generate-person-export-schema.mjs',
    '--check',
  ],
  ['permissions page matches the table', 'node', 'scripts/generate-permissions.mjs', '--check'],
  ['rules page matches the rules', 'node', 'scripts/generate-rules.mjs', '--check'],
  ['configuration page matches the checks', 'node', 'scripts/generate-configuration.mjs', '--check'],
  ['licences are allowed', 'node', 'scripts/licences.mjs', '--check'],
  ['format', 'npm', 'run', '--silent', 'format:check'],
]);

/**
 * Everything that can be said of the code without running the apps: all of it, whatever fails on the way.
 *
 * @param {Processes} processes
 * @returns {Promise<CheckResult>}
 */
export async function runChecks(processes) {
  /** @type {CheckResult} */
  const result = { held: [], failed: [], tests: noTests };
  /** @param {string} name @param {() => Promise<void>} work */
  const check = async (name, work) => {
    try {
      await step(name, work);
      result.held.push(name);
    } catch (error) {
      if (!(error instanceof LaunchError)) throw error;
      console.log(error.message);
      result.failed.push(name);
    }
  };
  // First and alone: the others read what the compiler writes.
  await check('types', () => tool(processes, 'types', 'npm', ['run', '--silent', 'types']));
  const queue = [
    () =>
      check('unit tests', async () => {
        result.tests = await jest(processes, 'unit', { show: false });
        if (result.tests.failed > 0) throw new LaunchError('');
      }),
    // Shown: it may have been skipped.
    () =>
      check('asking for known vulnerabilities', () =>
        processes.run('audit', process.execPath, ['scripts/audit.mjs'], { cwd: root, show: true }),
      ),
    ...checks.map(
      ([name, command, ...args]) =>
        () =>
          check(name, () => tool(processes, name.replaceAll(/\W+/g, '-').toLowerCase(), command, args)),
    ),
  ];
  const takeNext = async () => {
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) await next();
  };
  await Promise.all([takeNext(), takeNext()]);
  return result;
}

/**
 * @param {Processes} processes
 * @param {string} name
 * @param {string} command
 * @param {readonly string[]} args
 */
function tool(processes, name, command, args) {
  return processes.run(name, command === 'node' ? process.execPath : command, args, {
    cwd: root,
    lines: 100,
  });
}
