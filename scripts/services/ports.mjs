import { randomInt } from 'node:crypto';
import { mkdirSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Each user has claims of their own: nobody may write into another's folder. */
const claims = path.join(tmpdir(), `fitting-studio-ports-${process.getuid?.() ?? 0}`);

/** How long whoever asked for a port has it for himself, to start what listens on it. */
const claimMs = 60_000;

/**
 * A port on 127.0.0.1 that nothing listens on and, but for a preferred one, that nobody else is given within a minute. Below
 * the ranges from which systems take ports for outgoing connections, so that none of those can take it before it is used.
 *
 * @param {number} [preferred] taken when it is free
 * @returns {Promise<number>}
 */
export async function freePort(preferred) {
  if (preferred !== undefined && (await isFree(preferred))) return preferred;
  for (;;) {
    const port = randomInt(20_000, 32_000);
    if ((await isFree(port)) && claim(port)) return port;
  }
}

/**
 * @param {number} port
 * @returns {boolean} whether nobody else has it
 */
function claim(port) {
  const folder = path.join(claims, String(port));
  const claimed = statSync(folder, { throwIfNoEntry: false });
  if (claimed && Date.now() - claimed.mtimeMs > claimMs) rmSync(folder, { recursive: true, force: true });
  // Of those who ask at once, one makes the folder.
  return mkdirSync(folder, { recursive: true }) !== undefined;
}

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function isFree(port) {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => {
      resolve(false);
    });
    server.listen(port, '127.0.0.1', () => {
      server.close(() => {
        resolve(true);
      });
    });
  });
}
