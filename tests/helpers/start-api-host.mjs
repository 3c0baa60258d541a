import path from 'node:path';
import { freePort } from '../../scripts/services/ports.mjs';
import { untilHealthy } from '../../scripts/services/processes.mjs';

/**
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {'api-host' | 'api-host-1' | 'api-host-2' | 'balanced-api-host'} name
 * @param {NodeJS.ProcessEnv} [more] of its environment
 * @returns {Promise<string>} its address
 */
export async function startApiHost(processes, name, more = {}) {
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const program = path.join(import.meta.dirname, `${name.replace(/-\d$/, '')}.mjs`);
  const env = { PATH: process.env['PATH'], API_HOST_PORT: String(port), ...more };
  const running = processes.start(name, process.execPath, [program], { env });
  await untilHealthy(running, async () => (await fetch(url, { method: 'HEAD' })).status > 0);
  return url;
}
