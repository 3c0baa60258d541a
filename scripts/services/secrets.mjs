import { randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { readJson, writeJson } from './json.mjs';

/** How each is drawn. */
const drawn = {
  admin: () => hex(),
  tokenSecret: () => hex(),
  linkSecret: () => hex(),
  webhookKey: () => hex(),
  masterKeys: () => `first:${randomBytes(32).toString('base64url')}`,
  owner: () => hex(),
  api: () => hex(),
  worker: () => hex(),
};

/**
 * @typedef {{
 *   admin: string, tokenSecret: string, linkSecret: string, webhookKey: string, masterKeys: string,
 *   passwords: import('./roles.mjs').Passwords,
 * }} Secrets
 */

/**
 * The secrets of a run: drawn when they are first wanted and kept beside its data. They may be given: the passwords
 * of the database roles, for one, on a server where others use the same roles.
 *
 * @param {string} folder
 * @returns {Secrets}
 */
export function secretsOf(folder) {
  const file = path.join(folder, 'secrets.json');
  const before = /** @type {Partial<Record<string, string>>} */ (existsSync(file) ? readJson(file) : {});
  const kept = /** @type {Record<keyof typeof drawn, string>} */ (
    Object.fromEntries(Object.entries(drawn).map(([name, draw]) => [name, before[name] ?? draw()]))
  );
  writeJson(file, kept);
  const { env } = process;
  return {
    admin: kept.admin,
    tokenSecret: env['TOKEN_SECRET'] ?? kept.tokenSecret,
    linkSecret: env['LINK_SECRET'] ?? kept.linkSecret,
    webhookKey: env['WEBHOOK_KEY'] ?? kept.webhookKey,
    masterKeys: env['MASTER_KEYS'] ?? kept.masterKeys,
    passwords: {
      owner: env['FITTING_OWNER_PASSWORD'] ?? kept.owner,
      api: env['FITTING_API_PASSWORD'] ?? kept.api,
      worker: env['FITTING_WORKER_PASSWORD'] ?? kept.worker,
    },
  };
}

function hex() {
  return randomBytes(24).toString('hex');
}
