import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { databaseUrls } from '../../scripts/services/roles.mjs';

export interface TestDatabase {
  /** The schema's owner: for what only a migration may do. */
  ownerUrl: string;
  apiUrl: string;
  workerUrl: string;
  /** A superuser, whom row-level security does not bind: for looking behind the API. */
  adminUrl: string;
  drop: () => Promise<void>;
}

/** A database of this suite's own, as the migrations leave it: a clone of the template, made in milliseconds. */
export async function createTestDatabase(): Promise<TestDatabase> {
  const adminUrl = service('TEST_PG_ADMIN_URL');
  const database = `test_${randomBytes(8).toString('hex')}`;
  await asAdmin(
    adminUrl,
    `CREATE DATABASE ${database} TEMPLATE ${service('TEST_PG_TEMPLATE')} OWNER fitting_owner`,
  );
  const ownDatabase = new URL(adminUrl);
  ownDatabase.pathname = `/${database}`;
  const urls = databaseUrls({
    adminUrl,
    database,
    passwords: {
      owner: service('TEST_PG_OWNER_PASSWORD'),
      api: service('TEST_PG_API_PASSWORD'),
      worker: service('TEST_PG_WORKER_PASSWORD'),
    },
  });
  return {
    ...urls,
    apiUrl: throughPooler(urls.apiUrl),
    workerUrl: throughPooler(urls.workerUrl),
    adminUrl: ownDatabase.href,
    drop: () => asAdmin(adminUrl, `DROP DATABASE ${database} WITH (FORCE)`),
  };
}

const pooler = process.env['TEST_PG_POOLER'];

/** Where the tests run on the parts of several machines, the apps reach PostgreSQL through a pooler. */
export const pooled = pooler !== undefined;

function throughPooler(text: string): string {
  if (pooler === undefined) return text;
  const url = new URL(text);
  url.host = pooler;
  return url.href;
}

/** An address that global set-up put into the environment. */
export function service(name: `TEST_${string}`): string {
  const value = process.env[name];
  if (value === undefined) throw new Error(`${name} is not set: run this in the integration project`);
  return value;
}

async function asAdmin(adminUrl: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}
