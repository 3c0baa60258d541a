import { readdirSync } from 'node:fs';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, jest } from '@jest/globals';
import { CheckoutCopy } from './checkout-copy.js';
import { launch, lives, listens, pids, ports, stopLaunched } from './launcher.js';

jest.setTimeout(300_000);

describe('the demo, from a fresh checkout', () => {
  let copy: CheckoutCopy;
  beforeAll(() => {
    copy = new CheckoutCopy();
  });
  afterEach(stopLaunched);
  afterAll(() => {
    copy.remove();
  });

  function demo(...args: string[]): ReturnType<typeof launch> {
    return launch({ data: path.join(copy.path, '.data'), checkout: copy.path, args });
  }

  it('compiles, starts every part, plays the story to its end, and leaves nothing running', async () => {
    const run = demo('--once');
    expect([await run.ended, run.output()]).toEqual([0, expect.stringContaining('starting the worker')]);
    expect(pids(path.join(copy.path, '.data'))).toEqual([]);
    expect(await Promise.all(ports(run.output()).map(listens))).not.toContain(true);
  });

  it('plays it again on the same data, and then serves the addresses it prints', async () => {
    const run = demo();
    await run.says('Sign-ins of the demo studio:');
    const address = (name: string): string =>
      new RegExp(`^ +${name} +(http\\S+)`, 'm').exec(run.output())?.[1] ?? name;
    const pages = ['API docs', 'Caught mail'].map(async (name) => (await fetch(address(name))).status);
    expect(await Promise.all(pages)).toEqual([200, 200]);
    const running = pids(path.join(copy.path, '.data'));
    expect(running.map(({ name }) => name).sort()).toEqual([
      'api',
      'mail-catcher',
      'postgres',
      'redis',
      'worker',
    ]);

    process.kill(run.pid, 'SIGINT');
    expect(await run.ended).toBe(0);
    expect(running.filter(lives)).toEqual([]);
  });

  it('fails, saying which part and why, when a part does not start', async () => {
    const run = launch({
      data: path.join(copy.path, '.data'),
      checkout: copy.path,
      args: ['--once'],
      env: { TOKEN_SECRET: 'too-short' },
    });
    expect(await run.ended).toBe(1);
    expect(run.output()).toContain('api did not start: exit code 1');
    expect(run.output()).toContain('TOKEN_SECRET');
    expect(run.output()).not.toContain('too-short');
    expect(readdirSync(path.join(copy.path, '.data', 'demo', 'pids'))).toEqual([]);
  });
});
