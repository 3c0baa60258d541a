import { waitForLock } from './lock.mjs';
import { LaunchError } from './launch-error.mjs';
import { dataFolder } from './paths.mjs';
import { Processes } from './processes.mjs';

/** @typedef {{ endsOnSignal: boolean }} Control `endsOnSignal`: from now on Ctrl-C is the planned end, not a failure */

/** Exit codes of a run cut off by a signal, as shells count them. */
const exitCodes = { SIGHUP: 129, SIGINT: 130, SIGTERM: 143 };

class Interrupted extends Error {
  /** @param {keyof typeof exitCodes} signal */
  constructor(signal) {
    super(signal);
    this.exitCode = exitCodes[signal];
  }
}

/**
 * A run at the keyboard: one at a time, with processes that all end with it however it ends. Exits.
 *
 * @param {import('./paths.mjs').Kind} kind
 * @param {string} purpose what it is called when another run is refused
 * @param {(processes: Processes, control: Control) => Promise<number>} work answers the exit code
 */
export async function launch(kind, purpose, work) {
  // A closed terminal must not end us before everything is stopped.
  process.stdout.on('error', () => undefined);
  const control = { endsOnSignal: false };
  /** @type {Promise<never>} */
  const interrupted = new Promise((_resolve, reject) => {
    for (const signal of /** @type {(keyof typeof exitCodes)[]} */ (Object.keys(exitCodes))) {
      process.on(signal, () => {
        reject(new Interrupted(signal));
      });
    }
    whenOrphaned(() => {
      reject(new Interrupted('SIGTERM'));
    });
  });
  interrupted.catch(() => undefined);
  /** @type {Processes | undefined} */
  let processes;
  let release = () => {};
  /** @type {number} */
  let exitCode;
  try {
    requireNode();
    const folder = dataFolder(kind);
    // Whoever was stopped a moment ago may still be stopping.
    release = await waitForLock(`${folder}/lock.json`, purpose, { atMostMs: 3000 });
    processes = new Processes(folder);
    const found = await processes.stopLeftovers();
    if (found.length > 0)
      console.log(`Stopped what a killed run had left behind: ${found.sort().join(', ')}.`);
    const working = work(processes, control);
    working.catch(() => undefined);
    exitCode = await Promise.race([working, interrupted]);
  } catch (error) {
    exitCode = report(error, control);
  }
  await processes?.stopAll();
  release();
  process.exit(exitCode);
}

/**
 * @param {unknown} error
 * @param {Control} control
 * @returns {number} exit code
 */
function report(error, control) {
  if (error instanceof Interrupted) {
    console.log('\nStopping.');
    return control.endsOnSignal ? 0 : error.exitCode;
  }
  console.error(error instanceof LaunchError ? error.message : error);
  return 1;
}

/**
 * When npm above us is killed without a chance to pass that on, nobody is left to stop us. The timer also keeps us
 * alive while there is nothing to do but to wait for a signal.
 *
 * @param {() => void} tell
 */
function whenOrphaned(tell) {
  const parent = process.ppid;
  const belowNpm = process.env['npm_lifecycle_event'] !== undefined;
  setInterval(() => {
    if (belowNpm && process.ppid !== parent) tell();
  }, 250);
}

function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    throw new LaunchError(`Node 20.19 or newer is needed; this is ${process.versions.node}.`);
  }
}
