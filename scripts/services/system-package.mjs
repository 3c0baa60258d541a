import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { step } from './step.mjs';

/** Asked by Debian's package scripts before they start a service; exit code 101 says no (invoke-rc.d(8)). */
const policyFile = '/usr/sbin/policy-rc.d';

/**
 * The first of these programs on the PATH.
 *
 * @param {readonly string[]} names
 * @returns {string | null}
 */
export function findProgram(names) {
  const folders = (process.env['PATH'] ?? '').split(path.delimiter);
  const candidates = names.flatMap((name) => folders.map((folder) => path.join(folder, name)));
  return candidates.find(isProgram) ?? null;
}

/** @param {string} file */
function isProgram(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Whether this is Debian or its kin, where we know how packages are installed. */
export const isDebian = () => existsSync('/etc/debian_version');

export const isRoot = () => process.getuid?.() === 0;

/**
 * Runs a command as root: as we are, or by sudo without a password.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {string} name of its log
 * @param {string[]} command
 */
export function asRoot(processes, name, ...command) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const sudo = isRoot() ? [] : ['sudo', '-n', 'DEBIAN_FRONTEND=noninteractive'];
  const [program = '', ...args] = [...sudo, ...command];
  return processes.run(name, program, args, { env });
}

/**
 * Installs one of the system's packages, and starts no service that it may bring.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {string} name
 */
export async function installPackage(processes, name) {
  const install = () =>
    asRoot(processes, 'apt-install', 'apt-get', 'install', '-y', '--no-install-recommends', name);
  const update = () =>
    step('reading the lists of packages', () => asRoot(processes, 'apt-update', 'apt-get', 'update'));
  const deny = isRoot() && !existsSync(policyFile);
  if (deny) writeFileSync(policyFile, '#!/bin/sh\nexit 101\n', { mode: 0o755 });
  try {
    // Lists that are absent do not name the package; old ones name a version that is no longer served.
    if (spawnSync('apt-cache', ['show', name]).status !== 0) await update();
    await step(`installing the package ${name}`, () => install().catch(() => update().then(install)));
  } finally {
    if (deny) rmSync(policyFile);
  }
}
