import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The checkout. */
export const root = path.resolve(fileURLToPath(new URL('../..', import.meta.url)));

/** @typedef {'demo' | 'test' | 'check' | 'npm-test' | 'npm-check' | 'bench' | 'spread'} Kind */

/**
 * Where a kind of run keeps its data, logs and pids.
 *
 * @param {Kind} kind
 */
export function dataFolder(kind) {
  return path.resolve(process.env['STUDIO_DATA'] ?? path.join(root, '.data'), kind);
}
