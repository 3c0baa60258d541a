import { mkdirSync, writeFileSync } from 'node:fs';
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
 * @param {{ throwaway: boolean, port?: number, name?: string, replicaOf?: string }} options `replicaOf`: a URL
 * @returns {Promise<string>} its URL
 */
export async function startRedis(processes, { throwaway, port: wanted, name: called = 'redis', replicaOf }) {
  const program = findRedis() ?? (await installed(processes));
  const data = path.join(processes.folder, called);
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
    ...(replicaOf !== undefined && { replicaof: `127.0.0.1 ${new URL(replicaOf).port}` }),
  };
  const running = processes.start(
    called,
    program,
    Object.entries(settings).flatMap(([name, value]) => [`--${name}`, value]),
  );
  await untilHealthy(running, () => answers(port, 'PING', /^\+PONG/));
  return `redis://127.0.0.1:${port}`;
}

/**
 * Starts Sentinels that watch a primary with a replica, and put that in its place when most of them find it gone.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {{ primaryUrl: string, primaryName: string, count: number }} options
 * @returns {Promise<string[]>} their addresses
 */
export async function startSentinels(processes, { primaryUrl, primaryName, count }) {
  const program = findRedis() ?? (await installed(processes));
  const knowAll = new RegExp(`status=ok.*,slaves=[1-9]\\d*,sentinels=${count}`);
  return Promise.all(
    Array.from({ length: count }, async (_, n) => {
      const port = await freePort();
      const name = `sentinel-${n + 1}`;
      const data = path.join(processes.folder, name);
      mkdirSync(data, { recursive: true });
      // It writes into its file what it finds out.
      const file = path.join(data, 'sentinel.conf');
      const lines = [
        'bind 127.0.0.1',
        `port ${port}`,
        `dir ${data}`,
        `sentinel monitor ${primaryName} 127.0.0.1 ${new URL(primaryUrl).port} ${Math.floor(count / 2) + 1}`,
        `sentinel down-after-milliseconds ${primaryName} 1000`,
        `sentinel failover-timeout ${primaryName} 5000`,
      ];
      writeFileSync(file, `${lines.join('\n')}\n`);
      const running = processes.start(name, program, [file, '--sentinel']);
      await untilHealthy(running, () => answers(port, 'INFO sentinel', knowAll));
      return `127.0.0.1:${port}`;
    }),
  );
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
 * @param {string} command
 * @param {RegExp} expected
 * @returns {Promise<boolean>}
 */
function answers(port, command, expected) {
  return new Promise((resolve, reject) => {
    const socket = net.connect(port, '127.0.0.1', () => socket.write(`${command}\r\n`));
    socket.setTimeout(2000, () => socket.destroy(new Error('no answer')));
    socket.once('error', reject);
    socket.once('data', (data) => {
      socket.destroy();
      resolve(expected.test(data.toString()));
    });
  });
}
