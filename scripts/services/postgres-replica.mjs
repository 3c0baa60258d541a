import { execFileSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { appendFileSync, chownSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { placePostgres } from './postgres-files.mjs';
import { runServer } from './postgres.mjs';

/**
 * Starts a streaming replica of a server that `startPostgres` started. Its files are copied while it works (PostgreSQL 18
 * documentation, 25.3.4 "Making a Base Backup Using the Low Level API"); what changed meanwhile is streamed.
 *
 * @param {import('./processes.mjs').Processes} processes the same as the primary's
 * @param {{ primaryUrl: string, port: number, settings?: readonly string[] }} options
 * @returns {Promise<string>} the administrator's URL
 */
export async function startReplica(processes, { primaryUrl, port, settings = [] }) {
  const files = placePostgres(processes.folder);
  const data = path.join(files.home, 'replica');
  const password = randomBytes(24).toString('hex');
  const primary = new pg.Client({ connectionString: primaryUrl });
  await primary.connect();
  try {
    await primary.query(`CREATE ROLE fitting_replica LOGIN REPLICATION PASSWORD '${password}'`);
    await primary.query(`SELECT pg_backup_start('replica', true)`);
    execFileSync('cp', ['-a', path.join(files.home, 'data'), data]);
    const stopped = await primary.query('SELECT labelfile FROM pg_backup_stop(false)');
    const rows = /** @type {{ labelfile: string }[]} */ (stopped.rows);
    write('backup_label', rows[0]?.labelfile ?? '');
  } finally {
    await primary.end();
  }
  rmSync(path.join(data, 'postmaster.pid'), { force: true });
  write('standby.signal', '');
  // In a file of its own user: a command line can be read by everybody.
  const conninfo = `host=127.0.0.1 port=${new URL(primaryUrl).port} user=fitting_replica password=${password}`;
  appendFileSync(path.join(data, 'postgresql.auto.conf'), `primary_conninfo = '${conninfo}'\n`);
  return runServer(processes, files, {
    ...{ name: 'postgres-replica', data, port, settings },
    password: decodeURIComponent(new URL(primaryUrl).password),
  });

  /** @param {string} name @param {string} text */
  function write(name, text) {
    const file = path.join(data, name);
    writeFileSync(file, text, { mode: 0o600 });
    if (files.user !== null) chownSync(file, files.user.uid, files.user.gid);
  }
}
