import { randomBytes } from 'node:crypto';
import { freePort } from '../../scripts/services/ports.mjs';
import { pooled, type TestDatabase } from './database.js';
import { masterKeys } from './master-keys.js';

/** What an API needs to know: a database, a port of its own and secrets of its own. */
export async function apiEnvironment(database: TestDatabase) {
  const port = String(await freePort());
  return {
    NODE_ENV: 'test',
    DATABASE_URL: database.apiUrl,
    ...(pooled && { DATABASE_POOLED: '1' }),
    PUBLIC_URL: `http://127.0.0.1:${port}`,
    API_PORT: port,
    TOKEN_SECRET: randomBytes(32).toString('hex'),
    WEBHOOK_KEY: randomBytes(32).toString('hex'),
    MASTER_KEYS: masterKeys,
    OWNERS_NEED_SECOND_FACTOR: '0',
  };
}
