import { execFile } from 'node:child_process';
import path from 'node:path';
import { promisify } from 'node:util';
import { expect, it } from '@jest/globals';

const ports = path.resolve(import.meta.dirname, '../../scripts/services/ports.mjs');
const askFor300 = `
  import { freePort } from ${JSON.stringify(ports)};
  for (let n = 0; n < 300; n += 1) console.log(await freePort());`;

// By chance alone some seven of 600 out of 12,000 would be given to both.
it('a port is given to one process only, though nothing listens on it yet', async () => {
  const ask = async (): Promise<string[]> => {
    const { stdout } = await promisify(execFile)(process.execPath, [
      ...['--input-type=module', '--eval', askFor300],
    ]);
    return stdout.trim().split('\n');
  };
  const given = (await Promise.all([ask(), ask()])).flat();
  expect(given).toHaveLength(600);
  expect(new Set(given).size).toBe(600);
});
