import { chownSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { LaunchError } from './launch-error.mjs';
import { placePostgres } from './postgres-files.mjs';
import { connects } from './postgres.mjs';
import { untilHealthy } from './processes.mjs';
import { findProgram } from './system-package.mjs';

export const findPgbouncer = () => findProgram(['pgbouncer']);

/** The database's second name: under it a session keeps its connection, which LISTEN needs. */
export const sessionName = (/** @type {string} */ database) => `${database}_session`;

/**
 * PgBouncer on 127.0.0.1 before a PostgreSQL, in transaction mode: any database of it, by any of the users given.
 *
 * @typedef {{ address: string, pointTo: (postgresPort: number) => void, restart: () => Promise<void> }} Pgbouncer
 * @param {import('./processes.mjs').Processes} processes
 * @param {{
 *   port: number, postgresPort: number, users: Readonly<Record<string, string>>, probe: string, poolSize?: number,
 * }} options `users`: passwords by name; `probe`: a URL through it that must connect
 * @returns {Promise<Pgbouncer>}
 */
export async function startPgbouncer(processes, { port, postgresPort, users, probe, poolSize = 20 }) {
  const program = findPgbouncer();
  if (program === null) throw new LaunchError('There is no pgbouncer here: apt-get install pgbouncer');
  // It does not run as root either.
  const { home, user } = placePostgres(processes.folder);
  const folder = path.join(home, 'pgbouncer');
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  if (user !== null) chownSync(folder, user.uid, user.gid);
  const file = (/** @type {string} */ name, /** @type {string} */ text) => {
    const at = path.join(folder, name);
    writeFileSync(at, text, { mode: 0o600 });
    if (user !== null) chownSync(at, user.uid, user.gid);
    return at;
  };
  const quoted = (/** @type {string} */ text) => `"${text.replaceAll('"', '""')}"`;
  const userList = file(
    'users.txt',
    Object.entries(users)
      .map(([name, password]) => `${quoted(name)} ${quoted(password)}\n`)
      .join(''),
  );
  const database = new URL(probe).pathname.slice(1);
  const configured = (/** @type {number} */ to) =>
    file(
      'pgbouncer.ini',
      [
        '[databases]',
        `${sessionName(database)} = host=127.0.0.1 port=${to} dbname=${database} pool_mode=session`,
        `* = host=127.0.0.1 port=${to}`,
        '[pgbouncer]',
        'listen_addr = 127.0.0.1',
        `listen_port = ${port}`,
        'unix_socket_dir =',
        'auth_type = scram-sha-256',
        `auth_file = ${userList}`,
        'pool_mode = transaction',
        `default_pool_size = ${poolSize}`,
        'max_client_conn = 1000',
        // Asked again soon after a failover, and connections left to the old server are not kept.
        'server_login_retry = 1',
        'server_fast_close = 1',
        'server_idle_timeout = 10',
        'autodb_idle_timeout = 30',
        '',
      ].join('\n'),
    );
  const config = configured(postgresPort);
  const start = async () => {
    const running = processes.start('pgbouncer', program, [config], { user, cwd: folder });
    await untilHealthy(running, () => connects(probe));
  };
  await start();
  return {
    address: `127.0.0.1:${port}`,
    pointTo(to) {
      configured(to);
      processes.signal('pgbouncer', 'SIGHUP');
    },
    async restart() {
      await processes.end('pgbouncer', 'SIGKILL');
      await start();
    },
  };
}
