import { mkdirSync } from 'node:fs';
import net from 'node:net';
import path from 'node:path';
import { installRedis, mayInstall } from './redis-package.mjs';
import { LaunchError } from './launch-error.mjs';
import { freePort } from './ports.mjs';
import { untilHealthy } from './processes.mjs';
import { findProgram } from './system-package.mjs';

/**
 * Starts Redis (or Valkey, the same protocol) on 127.0.0.1. It never throws keys away: a lost key would be a lost job.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {{ throwaway: boolean, port?: number }} options
 * @returns {Promise<string>} its URL
 */
export async function startRedis(processes, { throwaway, port: wanted }) {
  const program = findRedis() ?? (await installed(processes));
  const data = path.join(processes.folder, 'redis');
  mkdirSync(data, { recursive: true });
  const port = wanted ?? (await freePort());
  const settings = {
    bind: '127.0.0.1',
    port: String(port),
    dir: data,
    'maxmemory-policy': 'noeviction',
    appendonly: throwaway ? 'no' : 'yes',
    save: '',
    daemonize: 'no',
  };
  const running = processes.start(
    'redis',
    program,
    Object.entries(settings).flatMap(([name, value]) => [`--${name}`, value]),
  );
  await untilHealthy(running, () => answersPing(port));
  return `redis://127.0.0.1:${port}`;
}

const findRedis = () => findProgram(['redis-server', 'valkey-server']);

/** @param {import('./processes.mjs').Processes} processes */
async function installed(processes) {
  if (mayInstall()) {
    await installRedis(processes).catch((/** @type {unknown} */ error) => {
      if (!(error instanceof LaunchError)) throw error;
      console.log(error.message);
    });
  }
  const program = findRedis();
  if (program !== null) return program;
  throw new LaunchError(
    [
      'Redis is needed and there is no redis-server or valkey-server on the PATH. Type one of:',
      '  Debian, Ubuntu:  sudo apt-get install redis-server',
      '  Fedora:          sudo dnf install valkey',
      '  Arch:            sudo pacman -S valkey',
      '  Alpine:          sudo apk add valkey',
      '  macOS:           brew install redis',
      'or name a running one: REDIS_URL=redis://127.0.0.1:6379',
    ].join('\n'),
  );
}

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function answersPing(port) {
  return new Promise((resolve, reject) => {
    const socket = net.connect(port, '127.0.0.1', () => socket.write('PING\r\n'));
    socket.setTimeout(2000, () => socket.destroy(new Error('no answer')));
    socket.once('error', reject);
    socket.once('data', (data) => {
      socket.destroy();
      resolve(data.toString().startsWith('+PONG'));
    });
  });
}
