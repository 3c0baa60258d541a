import { existsSync, readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { root } from './paths.mjs';

export const apps = /** @type {const} */ (['api', 'worker']);

/** @typedef {(typeof apps)[number]} App */

/** What runs an app: all it is made of in one file, and a few more that are loaded when wanted. @param {App} app */
export const bundleOf = (app) => path.join(root, 'apps', app, 'dist', 'bundle', 'main.mjs');

/** Whether something was compiled or installed since an app was put together. */
export function needsBundling() {
  const parts = ['apps', 'libs'].flatMap((folder) =>
    readdirSync(path.join(root, folder)).map((name) => path.join(root, folder, name, 'dist')),
  );
  const newest = Math.max(
    ...parts.filter(existsSync).map(newestScript),
    ...['package-lock.json', 'scripts/bundle.mjs'].map((file) => statSync(path.join(root, file)).mtimeMs),
  );
  return apps.map(bundleOf).some((file) => !existsSync(file) || statSync(file).mtimeMs < newest);
}

/** @param {string} folder @returns {number} when it was written, in milliseconds since the epoch */
function newestScript(folder) {
  const times = readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.js'))
    .map((entry) => statSync(path.join(entry.parentPath, entry.name)).mtimeMs);
  return Math.max(0, ...times);
}
