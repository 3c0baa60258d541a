import path from 'node:path';
import { format } from 'oxfmt';
import { readJson } from './json.mjs';
import { root } from './paths.mjs';

/**
 * A text as `npm run format` would leave it in that file.
 *
 * @param {string} file
 * @param {string} text
 * @returns {Promise<string>}
 */
export async function formatted(file, text) {
  const options = /** @type {import('oxfmt').FormatConfig} */ (readJson(path.join(root, '.oxfmtrc.json')));
  const { code, errors } = await format(file, text, options);
  if (errors.length > 0) throw new Error(`${file}: ${errors.map(({ message }) => message).join('; ')}`);
  return code;
}
