import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { readJson, writeJson } from './json.mjs';

/**
 * @typedef {{
 *   admin: string, tokenSecret: string, linkSecret: string, passwords: import('./roles.mjs').Passwords,
 * }} Secrets
 */

/**
 * The secrets of a run: drawn at its first start and kept beside its data. Passwords of the database roles may be
 * given, for a server on which others use the same roles.
 *
 * @param {string} folder
 * @returns {Secrets}
 */
export function secretsOf(folder) {
  const file = path.join(folder, 'secrets.json');
  if (!existsSync(file)) {
    const drawn = {
      admin: draw(),
      tokenSecret: draw(),
      linkSecret: draw(),
      owner: draw(),
      api: draw(),
      worker: draw(),
    };
    writeJson(file, drawn);
  }
  const kept =
    /** @type {Record<'admin' | 'tokenSecret' | 'linkSecret' | 'owner' | 'api' | 'worker', string>} */ (
      readJson(file)
    );
  const { env } = process;
  return {
    admin: kept.admin,
    tokenSecret: env['TOKEN_SECRET'] ?? kept.tokenSecret,
    linkSecret: env['LINK_SECRET'] ?? kept.linkSecret,
    passwords: {
      owner: env['FITTING_OWNER_PASSWORD'] ?? kept.owner,
      api: env['FITTING_API_PASSWORD'] ?? kept.api,
      worker: env['FITTING_WORKER_PASSWORD'] ?? kept.worker,
    },
  };
}

function draw() {
  return randomBytes(24).toString('hex');
}
