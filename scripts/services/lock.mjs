import { linkSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { hasCode, readJson, writeJson } from './json.mjs';
import { LaunchError } from './launch-error.mjs';
import { processIdentity } from './process-identity.mjs';

/** @typedef {{ pid: number, identity: string, purpose: string, since: string }} Holder */

/** Another living process holds the lock. */
export class LockHeld extends LaunchError {
  /** @override */
  name = 'LockHeld';

  /**
   * @param {string} file
   * @param {Holder} holder
   */
  constructor(file, holder) {
    super(
      `${holder.purpose} is already running here: process ${holder.pid}, since ${holder.since} (${file}).\n` +
        `Stop it (Ctrl-C in its window, or: kill ${holder.pid}), or set STUDIO_DATA to another folder to run beside it.`,
    );
    this.holder = holder;
  }
}

/**
 * Takes the lock, also from a holder that is dead.
 *
 * @param {string} file
 * @param {string} purpose what the holder does, for whoever is refused
 * @returns {() => void} gives the lock back
 * @throws {LockHeld}
 */
function acquireLock(file, purpose) {
  mkdirSync(path.dirname(file), { recursive: true });
  /** @type {Holder} */
  const me = {
    pid: process.pid,
    identity: processIdentity(process.pid) ?? '',
    purpose,
    since: new Date().toISOString(),
  };
  const mine = `${file}.${process.pid}`;
  writeJson(mine, me);
  try {
    // A hard link appears whole or not at all, so nobody reads a half-written holder.
    while (!linked(mine, file)) {
      const holder = read(file);
      if (holder === null) continue;
      if (processIdentity(holder.pid) === holder.identity) throw new LockHeld(file, holder);
      takeAway(file, holder);
    }
  } finally {
    rmSync(mine, { force: true });
  }
  return () => {
    if (read(file)?.identity === me.identity) rmSync(file, { force: true });
  };
}

/**
 * Takes the lock, and waits for a living holder to give it back.
 *
 * @param {string} file
 * @param {string} purpose
 * @param {{ atMostMs: number }} patience
 * @returns {Promise<() => void>} gives the lock back
 * @throws {LockHeld} when time is over
 */
export async function waitForLock(file, purpose, { atMostMs }) {
  const deadline = Date.now() + atMostMs;
  for (;;) {
    try {
      return acquireLock(file, purpose);
    } catch (error) {
      if (!(error instanceof LockHeld) || Date.now() > deadline) throw error;
      await sleep(100);
    }
  }
}

/**
 * @param {string} from
 * @param {string} to
 */
function linked(from, to) {
  try {
    linkSync(from, to);
    return true;
  } catch (error) {
    if (hasCode(error, 'EEXIST')) return false;
    throw error;
  }
}

/**
 * @param {string} file
 * @returns {Holder | null}
 */
function read(file) {
  try {
    return /** @type {Holder} */ (readJson(file));
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return null;
    throw error;
  }
}

/**
 * Removes a dead holder's file. Another run may have done so first and hold the lock by now: then it gets it back.
 *
 * @param {string} file
 * @param {Holder} dead
 */
function takeAway(file, dead) {
  const aside = `${file}.${process.pid}.aside`;
  try {
    renameSync(file, aside);
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return;
    throw error;
  }
  if (read(aside)?.identity !== dead.identity) linked(aside, file);
  rmSync(aside);
}
