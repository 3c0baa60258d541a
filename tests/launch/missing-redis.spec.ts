import { chownSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { CheckoutCopy } from './checkout-copy.js';
import { DataFolder, isRoot, launch, stopLaunched } from './launcher.js';

describe('without Redis, for an ordinary user', () => {
  let folder: DataFolder;
  let copy: CheckoutCopy;
  beforeEach(() => {
    folder = new DataFolder();
    copy = new CheckoutCopy();
  });
  afterEach(async () => {
    await stopLaunched();
    folder.remove();
    copy.remove();
  });

  it('ends with the line to type', async () => {
    const nobody = 65_534;
    if (isRoot) chownSync(folder.path, nobody, nobody);
    const run = launch({
      data: folder.path,
      checkout: copy.path,
      env: { PATH: '/nowhere', CI: undefined },
      ...(isRoot ? { user: { uid: nobody, gid: nobody } } : {}),
    });
    expect(await run.ended).toBe(1);
    expect(run.output()).toContain('Debian, Ubuntu:  sudo apt-get install redis-server');
    expect(run.output()).toContain('REDIS_URL=redis://');
    expect(run.output()).not.toContain('    at ');
  });
});
