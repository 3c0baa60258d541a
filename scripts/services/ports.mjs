import { randomInt } from 'node:crypto';
import { createServer } from 'node:net';

/**
 * A port on 127.0.0.1 that nothing listens on. Below the ranges from which systems take ports for outgoing
 * connections, so that none of those can take it before it is used.
 *
 * @param {number} [preferred] taken when it is free
 * @returns {Promise<number>}
 */
export async function freePort(preferred) {
  if (preferred !== undefined && (await isFree(preferred))) return preferred;
  for (;;) {
    const port = randomInt(20_000, 32_000);
    if (await isFree(port)) return port;
  }
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
