import { spawnSync } from 'node:child_process';
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { step } from './step.mjs';

/** Asked by Debian's package scripts before they start a service; exit code 101 says no (invoke-rc.d(8)). */
const policyFile = '/usr/sbin/policy-rc.d';

/** Whether we may install system packages: on Debian and its kin, as root or on a build machine. */
export function mayInstall() {
  const root = process.getuid?.() === 0;
  return existsSync('/etc/debian_version') && (root || process.env['CI'] === 'true');
}

/**
 * Installs Redis from the system's packages, without leaving the service that the package would start.
 *
 * @param {import('./processes.mjs').Processes} processes
 */
export async function installRedis(processes) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const sudo = process.getuid?.() === 0 ? [] : ['sudo', '-n', 'DEBIAN_FRONTEND=noninteractive'];
  /** @param {string} name @param {string[]} command */
  const asRoot = (name, ...command) => {
    const [program = '', ...args] = [...sudo, ...command];
    return processes.run(name, program, args, { env });
  };
  const install = () =>
    asRoot('apt-install', 'apt-get', 'install', '-y', '--no-install-recommends', 'redis-server');
  const update = () => step('reading the lists of packages', () => asRoot('apt-update', 'apt-get', 'update'));
  console.log('There is no Redis here. Installing the system’s package: apt-get install redis-server');
  const deny = sudo.length === 0 && !existsSync(policyFile);
  if (deny) writeFileSync(policyFile, '#!/bin/sh\nexit 101\n', { mode: 0o755 });
  try {
    // Lists that are absent do not name the package; old ones name a version that is no longer served.
    if (!isListed()) await update();
    await step('installing the package redis-server', () => install().catch(() => update().then(install)));
  } finally {
    if (deny) rmSync(policyFile);
  }
  // Nor may it come with the next start of the machine.
  await asRoot('redis-disable', 'update-rc.d', 'redis-server', 'disable');
  await asRoot('redis-stop', 'service', 'redis-server', 'stop').catch(() => undefined);
}

function isListed() {
  return spawnSync('apt-cache', ['show', 'redis-server']).status === 0;
}
