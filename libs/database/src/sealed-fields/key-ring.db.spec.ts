import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { opened, sealed } from '@studio/database';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { createTestDatabase, type TestDatabase } from '../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../tests/helpers/keys.js';

const studioId = randomUUID();

let database: TestDatabase;
let one: Connected;
let another: Connected;

beforeAll(async () => {
  database = await createTestDatabase();
  const admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Sealed', 'Europe/Oslo')`, [
    studioId,
  ]);
  await admin.end();
  one = await connect(database.apiUrl, 1);
  another = await connect(database.apiUrl, 1);
});
afterAll(async () => {
  await one.close();
  await another.close();
  await database.drop();
});

it('a process that holds that a studio has no key asks again once another has drawn it', async () => {
  const of = { studioId };
  // Nothing is sealed yet, and no key wanted.
  expect(await one.transaction.read(of, async () => Promise.resolve('read'))).toBe('read');
  const value = await another.transaction.run(of, async () => Promise.resolve(sealed('a note')));
  expect(value).toMatch(/^sealed:/);
  expect(await one.transaction.read(of, async () => Promise.resolve(opened({ value }, 'value')))).toEqual({
    value: 'a note',
  });
  // And seals with the same, not with one of its own.
  const again = await one.transaction.run(of, async () => Promise.resolve(sealed('another')));
  expect(
    await another.transaction.read(of, async () => Promise.resolve(opened({ value: again }, 'value'))),
  ).toEqual({ value: 'another' });
});
