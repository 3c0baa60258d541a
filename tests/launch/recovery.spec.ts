import { spawn } from 'node:child_process';
import { chownSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { commandLine, processIdentity } from '../../scripts/services/process-identity.mjs';
import { DataFolder, launch, lives, pids, serving, stopLaunched } from './launcher.js';

describe('after the launcher was killed', () => {
  let folder: DataFolder;
  beforeEach(() => {
    folder = new DataFolder();
  });
  afterEach(async () => {
    await stopLaunched();
    folder.remove();
  });

  async function killedRun(): Promise<ReturnType<typeof pids>> {
    const run = launch({ data: folder.path });
    await run.says(serving);
    process.kill(run.pid, 'SIGKILL');
    await run.ended;
    const left = pids(folder.path);
    expect(left).toHaveLength(3);
    expect(left.every(lives)).toBe(true);
    return left;
  }

  it('the next run stops what is left, and starts', async () => {
    const left = await killedRun();
    const next = launch({ data: folder.path });
    await next.says(serving);
    expect(next.output()).toContain(
      'Stopped what a killed run had left behind: mail-catcher, postgres, redis.',
    );
    expect(left.filter(lives)).toEqual([]);
    expect(pids(folder.path).filter(lives)).toHaveLength(3);
  });

  it('the next run finds the database server by its own lock file when the pid files are gone', async () => {
    const left = await killedRun();
    const server = left.filter(({ name }) => name === 'postgres');
    rmSync(path.join(folder.path, 'demo', 'pids', 'postgres.json'));
    await launch({ data: folder.path }).says(serving);
    expect(server.filter(lives)).toEqual([]);
  });

  it('the next run spares a process that was given a pid of the killed one', async () => {
    const first = launch({ data: folder.path });
    await first.says(serving);
    const server = pids(folder.path).find(({ name }) => name === 'postgres')?.pid ?? 0;
    const { uid } = statSync(`/proc/${server}`);
    const dataFolder = /-D (.+?data) /.exec(commandLine(server))?.[1] ?? '';
    process.kill(first.pid, 'SIGTERM');
    await first.ended;

    // Of the server's own user: PostgreSQL itself does not mind the pid of somebody else's process.
    const bystander = spawn('sleep', ['60'], { uid });
    const pid = bystander.pid ?? 0;
    const identity = processIdentity(pid);
    const record = {
      name: 'redis',
      pid,
      identity: 'another boot/1/2',
      stopSignal: 'SIGTERM',
      group: false,
      order: 1,
    };
    writeFileSync(path.join(folder.path, 'demo', 'pids', 'redis.json'), JSON.stringify(record));
    writeFileSync(path.join(dataFolder, 'postmaster.pid'), `${pid}\n${dataFolder}\n1\n5432\n\n\n`);
    chownSync(path.join(dataFolder, 'postmaster.pid'), uid, -1);
    try {
      await launch({ data: folder.path }).says(serving);
      expect(processIdentity(pid)).toBe(identity);
    } finally {
      bystander.kill();
    }
  });
});
