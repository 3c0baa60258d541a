import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { DataFolder, launch, lives, pids, serving, stopLaunched } from './launcher.js';

describe('two runs at once', () => {
  let folder: DataFolder;
  beforeEach(() => {
    folder = new DataFolder();
  });
  afterEach(async () => {
    await stopLaunched();
    folder.remove();
  });

  it('refuses the second, names the first, and leaves it running', async () => {
    const first = launch({ data: folder.path });
    await first.says(serving);
    const started = pids(folder.path);

    const second = launch({ data: folder.path });
    expect(await second.ended).toBe(1);
    expect(second.output()).toContain(`the demo is already running here: process ${first.pid},`);
    expect(started.filter(lives)).toHaveLength(3);
  });

  it('lets exactly one of several that start together have it', async () => {
    const runs = Array.from({ length: 4 }, () => launch({ data: folder.path }));
    const ends = runs.map(async (run) => Promise.race([run.ended, run.says(serving).then(() => 'serving')]));
    expect((await Promise.all(ends)).map(String).sort()).toEqual(['1', '1', '1', 'serving']);
  });

  it('lets two run beside each other with a data folder each', async () => {
    const other = new DataFolder();
    try {
      await Promise.all([folder, other].map(async ({ path }) => launch({ data: path }).says(serving)));
      await stopLaunched();
    } finally {
      other.remove();
    }
  });
});
