import { readFileSync, renameSync, writeFileSync } from 'node:fs';

/**
 * @param {string} file
 * @returns {unknown}
 */
export function readJson(file) {
  /** @type {unknown} */
  const value = JSON.parse(readFileSync(file, 'utf8'));
  return value;
}

/**
 * The file holds the whole value or what it held before, also when we are killed; only its owner can read it.
 *
 * @param {string} file
 * @param {unknown} value
 */
export function writeJson(file, value) {
  const unfinished = `${file}.${process.pid}`;
  writeFileSync(unfinished, JSON.stringify(value), { mode: 0o600 });
  renameSync(unfinished, file);
}

/**
 * Whether an error is the system's of this code, such as ENOENT.
 *
 * @param {unknown} error
 * @param {string} code
 */
export function hasCode(error, code) {
  return error instanceof Error && 'code' in error && error.code === code;
}
