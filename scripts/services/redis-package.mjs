import { asRoot, installPackage, isDebian, isRoot } from './system-package.mjs';

/** Whether we may install system packages: on Debian and its kin, as root or on a build machine. */
export function mayInstall() {
  return isDebian() && (isRoot() || process.env['CI'] === 'true');
}

/**
 * Installs Redis from the system's packages, without leaving the service that the package would start.
 *
 * @param {import('./processes.mjs').Processes} processes
 */
export async function installRedis(processes) {
  console.log('There is no Redis here. Installing the system’s package: apt-get install redis-server');
  await installPackage(processes, 'redis-server');
  // Nor may it come with the next start of the machine.
  await asRoot(processes, 'redis-disable', 'update-rc.d', 'redis-server', 'disable');
  await asRoot(processes, 'redis-stop', 'service', 'redis-server', 'stop').catch(() => undefined);
}
