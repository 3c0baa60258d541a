import { spawn } from 'node:child_process';
import { mkdirSync, openSync, closeSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { hasCode, readJson, writeJson } from './json.mjs';
import { LaunchError } from './launch-error.mjs';
import { processIdentity } from './process-identity.mjs';

/** How long a process may take to end by itself before it is killed. */
const patienceMs = 10_000;

/**
 * @typedef {{
 *   name: string, pid: number, identity: string, stopSignal: NodeJS.Signals, group: boolean, order: number,
 * }} Left what a pid file says, so that the next run can find what this one left behind; `group`: stopped with all
 *   that it started itself
 * @typedef {{
 *   env?: NodeJS.ProcessEnv, cwd?: string, user?: { uid: number, gid: number } | null,
 *   stopSignal?: NodeJS.Signals, group?: boolean, show?: boolean, lines?: number,
 * }} StartOptions `show` lets the process write to our own output instead of its log; `lines`: how many of the log to
 *   show when it fails
 * @typedef {{ name: string, logFile: string, ended: Promise<string>, hasEnded: () => boolean }} Running
 *   `ended` says how: "exit code 1", "signal SIGKILL"
 */

/**
 * The processes of one run. Each has a log and a pid file under the run's folder and is stopped, last started first,
 * by `stopAll`.
 */
export class Processes {
  /** @type {(Running & { left: Left })[]} */
  #running = [];
  #closed = false;
  #started = 0;

  /** @param {string} folder */
  constructor(folder) {
    this.folder = folder;
    mkdirSync(path.join(folder, 'pids'), { recursive: true });
    mkdirSync(path.join(folder, 'logs'), { recursive: true });
    // Only for an end that nobody planned; on the planned ones nothing is running any more.
    process.once('exit', () => {
      for (const { left } of this.#running) signal(left, left.stopSignal);
    });
  }

  /**
   * Stops what a killed run left behind, as its pid files tell.
   *
   * @returns {Promise<string[]>} the names of what was found running
   */
  async stopLeftovers() {
    const pids = path.join(this.folder, 'pids');
    const left = readdirSync(pids)
      .filter((name) => name.endsWith('.json'))
      .map((name) => /** @type {Left} */ (readJson(path.join(pids, name))))
      .sort((one, other) => other.order - one.order);
    const alive = left.filter(isAlive);
    for (const one of alive) await stop(one);
    for (const one of left) rmSync(path.join(pids, `${one.name}.json`), { force: true });
    return alive.map((one) => one.name);
  }

  /**
   * @param {string} name
   * @param {string} command
   * @param {readonly string[]} args
   * @param {StartOptions} [options]
   * @returns {Running}
   */
  start(name, command, args, options = {}) {
    // Whoever was about to start something when the run was stopped must not leave it behind.
    if (this.#closed) throw new LaunchError(`${name} is not started: the run is stopping`);
    const logFile = path.join(this.folder, 'logs', `${name}.log`);
    const pidFile = path.join(this.folder, 'pids', `${name}.json`);
    const log = openSync(logFile, 'w');
    const stdio = options.show === true ? 'inherit' : log;
    const child = spawn(command, args, {
      cwd: options.cwd,
      env: options.env ?? process.env,
      ...(options.user ?? {}),
      stdio: ['ignore', stdio, stdio],
      // A group of its own: Ctrl-C reaches the launcher alone, which then stops everything in order.
      detached: true,
    });
    closeSync(log);
    /** @type {Promise<string>} */
    const ended = new Promise((resolve) => {
      child.once('error', (error) => {
        resolve(error.message);
      });
      child.once('exit', (code, by) => {
        resolve(by === null ? `exit code ${code ?? '?'}` : `signal ${by}`);
      });
    });
    const pid = child.pid ?? -1;
    const left = {
      name,
      pid,
      identity: processIdentity(pid) ?? '',
      stopSignal: options.stopSignal ?? 'SIGTERM',
      group: options.group ?? false,
      order: (this.#started += 1),
    };
    let over = child.pid === undefined;
    if (!over) writeJson(pidFile, left);
    const running = { name, logFile, ended, hasEnded: () => over, left };
    this.#running.push(running);
    void ended.then(() => {
      over = true;
      this.#running = this.#running.filter((one) => one !== running);
      rmSync(pidFile, { force: true });
    });
    return running;
  }

  /**
   * Runs a command, and whatever it runs, to its end.
   *
   * @param {string} name
   * @param {string} command
   * @param {readonly string[]} args
   * @param {StartOptions} [options]
   * @throws {LaunchError} with the last lines of its log, when it fails
   */
  async run(name, command, args, options = {}) {
    const running = this.start(name, command, args, { ...options, group: true });
    const end = await running.ended;
    if (end === 'exit code 0') return;
    throw new LaunchError(
      `${name} failed: ${end}${options.show === true ? '' : `\n${lastLines(running, options.lines)}`}`,
    );
  }

  /** Resolves when any process of this run ends, with a sentence and the last lines of its log. */
  async firstEnd() {
    return Promise.race(
      this.#running.map(
        async (running) => `${running.name} ended: ${await running.ended}\n${lastLines(running)}`,
      ),
    );
  }

  /**
   * Ends one of them by the signal given.
   *
   * @param {string} name
   * @param {NodeJS.Signals} stopSignal
   */
  async end(name, stopSignal) {
    const { left, ended } = this.#named(name);
    await stop({ ...left, stopSignal });
    await ended;
  }

  /**
   * @param {string} name
   * @param {NodeJS.Signals} signalName
   */
  signal(name, signalName) {
    signal(this.#named(name).left, signalName);
  }

  /** @param {string} name */
  #named(name) {
    const running = this.#running.find((one) => one.name === name);
    if (running === undefined) throw new LaunchError(`${name} is not running`);
    return running;
  }

  /** Stops everything, last started first, and lets nothing more be started. */
  async stopAll() {
    this.#closed = true;
    for (const running of [...this.#running].reverse()) {
      await stop(running.left);
      await running.ended;
    }
  }
}

/**
 * Waits until `check` answers true.
 *
 * @param {Running} running
 * @param {() => Promise<boolean>} check
 * @param {number} [timeoutMs]
 * @throws {LaunchError} when the process ends first, or time is over
 */
export async function untilHealthy(running, check, timeoutMs = 60_000) {
  const deadline = Date.now() + timeoutMs;
  while (!(await check().catch(() => false))) {
    if (running.hasEnded()) {
      throw new LaunchError(`${running.name} did not start: ${await running.ended}\n${lastLines(running)}`);
    }
    if (Date.now() > deadline) {
      throw new LaunchError(
        `${running.name} is not healthy after ${timeoutMs / 1000} s\n${lastLines(running)}`,
      );
    }
    await sleep(50);
  }
}

/**
 * @param {string} url
 * @returns {() => Promise<boolean>}
 */
export function answers(url) {
  return async () => (await fetch(url, { signal: AbortSignal.timeout(2000) })).ok;
}

/**
 * @param {Running} running
 * @param {number} [count]
 */
function lastLines({ logFile }, count = 20) {
  const lines = readFileSync(logFile, 'utf8').trimEnd().split('\n').slice(-count);
  return [...lines, `(${logFile})`].map((line) => `  ${line}`).join('\n');
}

/** @param {Pick<Left, 'pid' | 'identity'>} left */
function isAlive(left) {
  // A pid alone may have been given to somebody else's process since.
  return left.identity !== '' && processIdentity(left.pid) === left.identity;
}

/**
 * Asks a process to end, and kills it when it does not. Does nothing to another process that was given its pid.
 *
 * @param {Omit<Left, 'name' | 'order'>} left
 */
export async function stop(left) {
  signal(left, left.stopSignal);
  const deadline = Date.now() + patienceMs;
  while (isAlive(left)) {
    if (Date.now() > deadline) signal(left, 'SIGKILL');
    await sleep(20);
  }
}

/**
 * @param {Omit<Left, 'name' | 'order'>} left
 * @param {NodeJS.Signals} name
 */
function signal(left, name) {
  if (!isAlive(left)) return;
  try {
    process.kill(left.group ? -left.pid : left.pid, name);
  } catch (error) {
    // It ended between the two lines.
    if (!hasCode(error, 'ESRCH')) throw error;
  }
}
