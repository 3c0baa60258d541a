import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import pg from 'pg';
import { createTestDatabase, service, type TestDatabase } from './database.js';

describe('createTestDatabase', () => {
  let database: TestDatabase;
  beforeAll(async () => {
    database = await createTestDatabase();
  });
  afterAll(() => database.drop());

  it.each(['ownerUrl', 'apiUrl', 'workerUrl'] as const)(
    'gives %s a role that row-level security binds',
    async (kind) => {
      const [row] = await ask(
        database[kind],
        'SELECT rolsuper, rolbypassrls, rolcreatedb, rolcreaterole FROM pg_roles WHERE rolname = current_user',
      );
      expect(row).toEqual({ rolsuper: false, rolbypassrls: false, rolcreatedb: false, rolcreaterole: false });
    },
  );

  it('leaves all tables to the owner', async () => {
    const owners = await ask(
      database.adminUrl,
      `SELECT DISTINCT tableowner FROM pg_tables WHERE schemaname = 'public'`,
    );
    expect(owners).toEqual([{ tableowner: 'fitting_owner' }]);
  });

  it('drops the clone and leaves the template', async () => {
    const other = await createTestDatabase();
    await other.drop();
    const name = new URL(other.adminUrl).pathname.slice(1);
    const left = await ask(service('TEST_PG_ADMIN_URL'), 'SELECT datname FROM pg_database');
    const names = left.map((row) => row['datname']);
    expect(names).toContain(service('TEST_PG_TEMPLATE'));
    expect(names).not.toContain(name);
  });
});

async function ask(url: string, statement: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query<Record<string, unknown>>(statement)).rows;
  } finally {
    await client.end();
  }
}
