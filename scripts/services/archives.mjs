import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';

/** @param {number} bytes */
export const inMebibytes = (bytes) => `${(bytes / 1024 / 1024).toFixed(1)} MiB`;

/**
 * SHA-256 of a file, in hexadecimal.
 *
 * @param {string} file
 * @returns {Promise<string>}
 */
export async function fileHash(file) {
  const hash = createHash('sha256');
  await pipeline(createReadStream(file), hash);
  return hash.digest('hex');
}

/** @param {unknown} error */
export function tellAndFail(error) {
  console.error(error instanceof Error ? `${error.name}: ${error.message}` : String(error));
  process.exitCode = 1;
}
