import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { sqlState, TenantReads } from '@studio/database';
import { randomUUID } from 'node:crypto';
import { openStudio } from '../../seed/src/open-studio.js';
import { createTestDatabase, type TestDatabase } from '../helpers/database.js';

describe('TenantReads', () => {
  let database: TestDatabase;
  let reads: TenantReads;
  const studios = [randomUUID(), randomUUID()] as const;

  beforeAll(async () => {
    database = await createTestDatabase();
    for (const studioId of studios) {
      const owner = { email: `owner@${studioId}.example`, displayName: studioId, password: 'for tests only' };
      const handle = `studio-${studioId.slice(-8)}`;
      await openStudio(database.ownerUrl, { studioId, handle, name: handle, timeZone: 'Europe/Oslo', owner });
    }
    reads = new TenantReads({ url: database.apiUrl, poolSize: 2, applicationName: 'test' });
  });
  afterAll(async () => {
    await reads.close();
    await database.drop();
  });

  const names = (studioId: string) =>
    reads.run(studioId, (sql) =>
      sql.query<{ name: string }[]>('SELECT display_name AS name FROM users WHERE id IS DISTINCT FROM $1', [
        null,
      ]),
    );

  it('keeps studios apart, however their reads are interleaved on few connections', async () => {
    const asked = Array.from({ length: 400 }, (_, n) => studios[n % 2 === 0 || n % 7 === 0 ? 0 : 1]);
    const answers = await Promise.all(asked.map(names));
    expect(answers).toEqual(asked.map((name) => [{ name }]));
  });

  it('sees nothing as a studio that is not there', async () => {
    expect(await names(randomUUID())).toEqual([]);
  });

  it('cannot write', async () => {
    const write = reads.run(studios[0], (sql) => sql.query(`UPDATE users SET display_name = 'changed'`));
    await expect(write).rejects.toMatchObject({ code: '25006' });
  });

  it('ends a query that takes longer than the server is told to let it, and goes on', async () => {
    const hasty = new TenantReads({
      ...{ poolSize: 1, applicationName: 'test' },
      url: `${database.apiUrl}?options=${encodeURIComponent('-c statement_timeout=200ms')}`,
    });
    const slow = hasty.run(studios[0], (sql) => sql.query('SELECT pg_sleep(30)'));
    const next = hasty.run(studios[0], (sql) =>
      sql.query('SELECT current_setting($1) AS limit', ['statement_timeout']),
    );
    await expect(slow).rejects.toMatchObject({ code: sqlState.queryCanceled });
    expect(await next).toEqual([{ limit: '200ms' }]);
    await hasty.close();
  });

  it('goes on after a query that failed, and after a studio id that is none', async () => {
    const broken = reads.run(studios[0], (sql) => sql.query('SELECT 1 / $1::integer', [0]));
    const foreign = names(`${studios[0]}' OR true`);
    const [divided, refused, ...others] = await Promise.allSettled([
      broken,
      foreign,
      ...Array.from({ length: 20 }, () => names(studios[1])),
    ]);
    expect(divided).toMatchObject({ reason: { code: '22012' } });
    expect(refused).toMatchObject({ reason: { code: '22P02' } });
    for (const other of others) expect(other).toMatchObject({ value: [{ name: studios[1] }] });
  });
});
