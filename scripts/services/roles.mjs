import pg from 'pg';
import { LaunchError } from './launch-error.mjs';

/**
 * @typedef {{ owner: string, api: string, worker: string }} Passwords
 * @typedef {{ ownerUrl: string, apiUrl: string, workerUrl: string }} DatabaseUrls
 */

/** The owner makes the schema; the apps own nothing, so row-level security binds them. */
const roles = /** @type {const} */ ({ owner: 'fitting_owner', api: 'fitting_api', worker: 'fitting_worker' });

const extensions = ['btree_gist', 'pg_trgm', 'citext'];

/**
 * Nobody waits longer for an answer of the API, or behind somebody who holds a lock; a transaction whose request was forgotten lets go of its locks. Settings
 * of the role, since a pooler hands on none of a connection's.
 */
const limits = { statement_timeout: '60s', lock_timeout: '20s', idle_in_transaction_session_timeout: '60s' };

/** For two launchers at one server; the number says nothing. */
const advisoryLock = 7_061_182;

/**
 * Makes the roles, the database and its extensions where they are missing, and sets the passwords.
 *
 * @param {{ adminUrl: string, database: string, passwords: Passwords }} options `adminUrl` is of a role that may create
 *   roles and databases
 * @returns {Promise<DatabaseUrls>}
 */
export async function prepareDatabase({ adminUrl, database, passwords }) {
  await connected(adminUrl, async (admin) => {
    await admin.query(`SELECT pg_advisory_lock(${advisoryLock})`);
    for (const kind of /** @type {(keyof typeof roles)[]} */ (Object.keys(roles))) {
      await ensureRole(admin, roles[kind], passwords[kind]);
    }
    for (const [name, limit] of Object.entries(limits)) {
      await admin.query(`ALTER ROLE ${roles.api} SET ${name} = '${limit}'`);
    }
    await ensureDatabase(admin, database);
  });
  await connected(urlOf(adminUrl, { database }), async (admin) => {
    for (const extension of extensions) await admin.query(`CREATE EXTENSION IF NOT EXISTS ${extension}`);
  });
  return databaseUrls({ adminUrl, database, passwords });
}

/**
 * @param {{ adminUrl: string, database: string, passwords: Passwords }} options
 * @returns {DatabaseUrls}
 */
export function databaseUrls({ adminUrl, database, passwords }) {
  return {
    ownerUrl: urlOf(adminUrl, { database, user: roles.owner, password: passwords.owner }),
    apiUrl: urlOf(adminUrl, { database, user: roles.api, password: passwords.api }),
    workerUrl: urlOf(adminUrl, { database, user: roles.worker, password: passwords.worker }),
  };
}

/**
 * @param {string} adminUrl
 * @param {string} database
 */
export async function dropDatabase(adminUrl, database) {
  await connected(adminUrl, async (admin) => {
    await admin.query(`DROP DATABASE IF EXISTS ${admin.escapeIdentifier(database)} WITH (FORCE)`);
  });
}

/**
 * @param {string} adminUrl
 * @param {string} database
 * @returns {Promise<boolean>}
 */
export async function hasDatabase(adminUrl, database) {
  let has = false;
  await connected(adminUrl, async (admin) => {
    has = (await admin.query('SELECT FROM pg_database WHERE datname = $1', [database])).rowCount !== 0;
  });
  return has;
}

/**
 * @param {pg.Client} admin
 * @param {string} role
 * @param {string} password
 */
async function ensureRole(admin, role, password) {
  const { rowCount } = await admin.query('SELECT FROM pg_roles WHERE rolname = $1', [role]);
  if (rowCount === 0) await admin.query(`CREATE ROLE ${role}`);
  await admin.query(`ALTER ROLE ${role} LOGIN PASSWORD ${admin.escapeLiteral(password)}`);
  const { rows } = await admin.query(
    'SELECT rolsuper OR rolbypassrls AS unbound FROM pg_roles WHERE rolname = $1',
    [role],
  );
  if (/** @type {{ unbound: boolean }[]} */ (rows)[0]?.unbound !== false) {
    throw new LaunchError(
      `Role ${role} may pass row-level security on this server; take that from it first.`,
    );
  }
}

/**
 * @param {pg.Client} admin
 * @param {string} database
 */
async function ensureDatabase(admin, database) {
  const { rowCount } = await admin.query('SELECT FROM pg_database WHERE datname = $1', [database]);
  if (rowCount !== 0) return;
  // An administrator who is not a superuser must be a member of the role it gives the database to.
  await admin.query(`GRANT ${roles.owner} TO CURRENT_USER`);
  await admin.query(`CREATE DATABASE ${admin.escapeIdentifier(database)} OWNER ${roles.owner}`);
}

/**
 * @param {string} url
 * @param {(client: pg.Client) => Promise<void>} work
 */
async function connected(url, work) {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    await work(client);
  } finally {
    await client.end();
  }
}

/**
 * @param {string} url
 * @param {{ database?: string, user?: string, password?: string }} change
 */
export function urlOf(url, { database, user, password }) {
  const changed = new URL(url);
  if (database !== undefined) changed.pathname = `/${encodeURIComponent(database)}`;
  if (user !== undefined) changed.username = user;
  if (password !== undefined) changed.password = encodeURIComponent(password);
  return changed.href;
}
