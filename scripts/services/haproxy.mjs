import { mkdirSync, writeFileSync } from 'node:fs';
import net from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { text } from 'node:stream/consumers';
import { LaunchError } from './launch-error.mjs';
import { answers, untilHealthy } from './processes.mjs';
import { findProgram } from './system-package.mjs';

export const findHaproxy = () => findProgram(['haproxy']);

/**
 * HAProxy on 127.0.0.1 before some APIs, which it asks for their health. A request that no API took is given to
 * another; one that an API may have begun is not: that is for the caller, who has an Idempotency-Key.
 *
 * @typedef {{ url: string, state: (server: string, state: 'ready' | 'drain') => Promise<void> }} Haproxy
 * @param {import('./processes.mjs').Processes} processes
 * @param {{ name: string, port: number, servers: Readonly<Record<string, string>> }} options addresses by name
 * @returns {Promise<Haproxy>}
 */
export async function startHaproxy(processes, { name, port, servers }) {
  const program = findHaproxy();
  if (program === null) throw new LaunchError('There is no haproxy here: apt-get install haproxy');
  const folder = path.join(processes.folder, name);
  mkdirSync(folder, { recursive: true });
  // A path of a socket may have a hundred characters or so, whatever the checkout's is.
  const socket = path.join(tmpdir(), `fitting-studio-haproxy-${port}.sock`);
  const file = path.join(folder, 'haproxy.cfg');
  writeFileSync(
    file,
    [
      'global',
      `  stats socket ${socket} mode 600 level admin`,
      // Node’s limit of headers is 16 KiB; what is longer is the API’s to refuse.
      '  tune.bufsize 65536',
      'defaults',
      '  mode http',
      '  option forwardfor',
      '  option redispatch 1',
      '  retries 3',
      // 503 is what an API says of a request it has not begun because it is closing.
      '  retry-on conn-failure 503',
      '  timeout connect 2s',
      // A busy API is not a dead one; a request that meets a dead one goes to another anyway.
      '  timeout check 5s',
      // Longer than the API’s own limits, so that it is the one who speaks.
      '  timeout client 130s',
      '  timeout server 130s',
      'frontend studio',
      `  bind 127.0.0.1:${port}`,
      '  default_backend apis',
      'backend apis',
      '  balance roundrobin',
      '  option httpchk GET /health/ready',
      '  http-check expect status 200',
      '  default-server check inter 1s fall 3 rise 1',
      ...Object.entries(servers).map(([server, address]) => `  server ${server} ${address}`),
      '',
    ].join('\n'),
  );
  const url = `http://127.0.0.1:${port}`;
  const running = processes.start(name, program, ['-f', file, '-db'], {});
  await untilHealthy(running, answers(`${url}/health/live`));
  return {
    url,
    async state(server, state) {
      const admin = net.connect(socket);
      admin.write(`set server apis/${server} state ${state}\n`);
      const said = (await text(admin)).trim();
      if (said !== '') throw new Error(said);
    },
  };
}
