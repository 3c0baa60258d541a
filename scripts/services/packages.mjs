import path from 'node:path';
import { hasCode, readJson } from './json.mjs';
import { root } from './paths.mjs';

/** @typedef {{ version?: string, link?: boolean, optional?: boolean }} LockEntry */

/** What the lock file names and the tree lacks, by version and not by dates, which git and cp change. */
export function missingPackages() {
  const wanted = read('package-lock.json');
  const installed = read('node_modules/.package-lock.json');
  return Object.entries(wanted)
    .filter(([folder, entry]) => folder.includes('node_modules/') && entry?.optional !== true)
    .filter(
      ([folder, entry]) =>
        installed[folder]?.version !== entry?.version || installed[folder]?.link !== entry?.link,
    )
    .map(([folder]) => folder);
}

/**
 * @param {string} file
 * @returns {Partial<Record<string, LockEntry>>}
 */
function read(file) {
  try {
    return /** @type {{ packages: Record<string, LockEntry> }} */ (readJson(path.join(root, file))).packages;
  } catch (error) {
    if (hasCode(error, 'ENOENT')) return {};
    throw error;
  }
}
