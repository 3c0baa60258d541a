import { readdirSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { DataFolder, launch, lives, listens, pids, ports, serving, stopLaunched } from './launcher.js';

describe('stopping the launcher', () => {
  let folder: DataFolder;
  beforeEach(() => {
    folder = new DataFolder();
  });
  afterEach(async () => {
    await stopLaunched();
    folder.remove();
  });

  async function expectNothingLeft(started: ReturnType<typeof pids>, output: string): Promise<void> {
    expect(started.filter(lives)).toEqual([]);
    expect(await Promise.all(ports(output).map(listens))).not.toContain(true);
    expect(pids(folder.path)).toEqual([]);
    expect(readdirSync(path.join(folder.path, 'demo'))).not.toContain('lock.json');
  }

  it('leaves nothing behind after Ctrl-C', async () => {
    const run = launch({ data: folder.path, throughNpm: true });
    await run.says(serving);
    await run.says('redis://');
    const started = pids(folder.path);
    expect(started.map(({ name }) => name).sort()).toEqual(['mail-catcher', 'postgres', 'redis']);
    expect(started.every(lives)).toBe(true);
    expect(await Promise.all(ports(run.output()).map(listens))).not.toContain(false);

    // A terminal sends it to everything in the foreground: npm, its shell and the launcher.
    process.kill(-run.pid, 'SIGINT');

    expect(await run.ended).toBe(0);
    await expectNothingLeft(started, run.output());
  });

  it('leaves nothing behind when it is cut off while starting, and says so by its exit code', async () => {
    const run = launch({ data: folder.path });
    while (pids(folder.path).length === 0) await sleep(5);
    process.kill(run.pid, 'SIGTERM');
    expect(await run.ended).toBe(143);
    await expectNothingLeft(pids(folder.path), run.output());
  });

  it('stops when npm above it is killed', async () => {
    const run = launch({ data: folder.path, throughNpm: true });
    await run.says(serving);
    const started = pids(folder.path);
    process.kill(run.pid, 'SIGKILL');
    // The launcher holds npm's output open until it has stopped.
    expect(await run.ended).toBe('SIGKILL');
    await expectNothingLeft(started, run.output());
  });
});
