import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { startPostgres } from '../../scripts/services/postgres.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { CheckoutCopy } from './checkout-copy.js';
import { DataFolder, isRoot, launch, pids, serving, stopLaunched } from './launcher.js';

// Only root can become somebody else. An ordinary user's own runs are then what every other launch test is.
const asRoot = isRoot ? describe : describe.skip;

asRoot('whoever runs it', () => {
  const name = `studio-test-${process.pid}`;
  let user: { uid: number; gid: number };
  let copy: CheckoutCopy;
  beforeAll(() => {
    execFileSync('useradd', ['--system', '--no-create-home', name]);
    const [uid, gid] = ['-u', '-g'].map((flag) => Number(execFileSync('id', [flag, name])));
    user = { uid: uid ?? -1, gid: gid ?? -1 };
    copy = new CheckoutCopy();
  });
  afterEach(stopLaunched);
  afterAll(() => {
    copy.remove();
    execFileSync('userdel', [name]);
  });

  it('serves an ordinary user, whose processes are all the user’s own', async () => {
    const folder = new DataFolder();
    chownSync(folder.path, user.uid, user.gid);
    const run = launch({ data: folder.path, checkout: copy.path, user, env: { HOME: folder.path } });
    await run.says(serving);
    expect(pids(folder.path).map(({ pid }) => ownerOf(pid))).toEqual([user.uid, user.uid, user.uid]);
    process.kill(run.pid, 'SIGINT');
    expect(await run.ended).toBe(0);
    folder.remove();
  });

  it('serves root from a folder that nobody else can enter, twice, and cleans up outside of it', async () => {
    chmodSync(copy.parent, 0o700);
    const data = path.join(copy.path, '.data');
    const demo = path.join(data, 'demo');
    for (const time of ['first', 'second']) {
      const run = launch({ data, checkout: copy.path });
      await run.says(serving);
      const server = pids(data).find((one) => one.name === 'postgres')?.pid ?? 0;
      expect([time, ownerOf(server)]).not.toEqual([time, 0]);
      process.kill(run.pid, 'SIGINT');
      expect(await run.ended).toBe(0);
    }
    const home = readFileSync(path.join(demo, 'postgres-home'), 'utf8');
    expect(statSync(home).mode & 0o077).toBe(0);
    copy.remove();
    expect(statSync(home, { throwIfNoEntry: false })).toBeUndefined();
  });

  it('takes an unprivileged user when the machine has no postgres user', async () => {
    const folder = new DataFolder();
    mkdirSync(path.join(folder.path, 'demo'));
    const processes = new Processes(path.join(folder.path, 'demo'));
    try {
      await startPostgres(processes, { password: 'x', throwaway: true, users: ['no-such-user', name] });
      expect(pids(folder.path).map(({ pid }) => ownerOf(pid))).toEqual([user.uid]);
      await expect(
        startPostgres(processes, { password: 'x', throwaway: true, users: ['no-such-user'] }),
      ).rejects.toThrow('there is no user no-such-user to run it as');
    } finally {
      await processes.stopAll();
      folder.remove();
    }
  });
});

function ownerOf(pid: number): number {
  return statSync(`/proc/${pid}`).uid;
}
