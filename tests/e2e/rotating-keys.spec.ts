import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import {
  createDataSource,
  MasterKeyMissing,
  StudioKeyDestroyed,
  StudioKeys,
  type MasterKeys,
} from '@studio/database';
import { spawnSync } from 'node:child_process';
import { randomBytes, randomUUID } from 'node:crypto';
import path from 'node:path';
import pg from 'pg';
import type { DataSource, EntityManager } from 'typeorm';
import { createTestDatabase, pooled, type TestDatabase } from '../helpers/database.js';

const script = path.resolve(import.meta.dirname, '../../scripts/rotate-keys.mjs');
const before = { id: 'before', key: randomBytes(32) };
const after = { id: 'after', key: randomBytes(32) };
const studios = [randomUUID(), randomUUID()];
const place = 'second_factors.sealed_secret/1';
const secret = Buffer.from('a secret of a second factor');

let database: TestDatabase;
let dataSource: DataSource;
let admin: pg.Client;
const sealed = new Map<string, Buffer>();

const as = <T>(studioId: string, work: (tx: EntityManager) => Promise<T>): Promise<T> =>
  dataSource.transaction(async (tx) => {
    await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
    return work(tx);
  });
const opened = (keys: MasterKeys, studioId: string): Promise<Buffer> =>
  as(studioId, (tx) =>
    new StudioKeys(keys).unseal(tx, studioId, place, sealed.get(studioId) ?? Buffer.alloc(0)),
  );
const rotate = (...keys: MasterKeys) =>
  spawnSync(process.execPath, [script], {
    encoding: 'utf8',
    env: {
      PATH: process.env['PATH'],
      DATABASE_URL: database.apiUrl,
      MASTER_KEYS: keys.map(({ id, key }) => `${id}:${key.toString('base64url')}`).join(','),
    },
  });

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  dataSource = await createDataSource({
    ...{ url: database.apiUrl, poolSize: 1, applicationName: 'test', pooled },
  }).initialize();
  for (const [at, studioId] of studios.entries()) {
    await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Studio', 'Europe/Oslo')`, [
      studioId,
    ]);
    await admin.query('INSERT INTO studio_handles (handle, studio_id) VALUES ($1, $2)', [
      ...[`studio-${at}`, studioId],
    ]);
    sealed.set(
      studioId,
      await as(studioId, (tx) => new StudioKeys([before]).seal(tx, studioId, place, secret)),
    );
  }
});
afterAll(async () => {
  await dataSource.destroy();
  await admin.end();
  await database.drop();
});

describe('a new master key', () => {
  it('is not enough alone: what it cannot open is named, and nothing is lost', async () => {
    const { status, stdout, stderr } = rotate(after);
    expect([status, stdout]).toEqual([1, '0 keys wrapped with after, 2 left\n']);
    expect(stderr).toContain('studio-0: no master key before');
    expect(await opened([before], studios[0] ?? '')).toEqual(secret);
  });

  it('wraps every studio’s key, again and again without harm; then the old one is needed no more', async () => {
    expect(rotate(after, before).stdout).toBe('2 keys wrapped with after, 0 left\n');
    expect(rotate(after, before).stdout).toBe('0 keys wrapped with after, 0 left\n');
    for (const studioId of studios) {
      expect(await opened([after], studioId)).toEqual(secret);
      await expect(opened([before], studioId)).rejects.toThrow(MasterKeyMissing);
    }
  });

  it('is refused malformed, and never printed', () => {
    const { status, stderr } = spawnSync(process.execPath, [script], {
      encoding: 'utf8',
      env: { PATH: process.env['PATH'], DATABASE_URL: database.apiUrl, MASTER_KEYS: 'after:too-short' },
    });
    expect(status).toBe(1);
    expect(stderr).toContain('MASTER_KEYS');
    expect(stderr).not.toContain('too-short');
  });
});

describe('a studio’s key that was destroyed', () => {
  const destroyScript = path.resolve(import.meta.dirname, '../../scripts/destroy-studio-key.mjs');
  const destroy = (...handles: string[]) =>
    spawnSync(process.execPath, [destroyScript, ...handles], {
      encoding: 'utf8',
      env: { PATH: process.env['PATH'], DATABASE_URL: database.apiUrl },
    });

  it('is asked for twice, and nobody else’s', async () => {
    expect(destroy('studio-0')).toMatchObject({
      ...{ status: 1, stderr: expect.stringContaining('would be lost for good') },
    });
    expect(destroy('studio-9', 'studio-9')).toMatchObject({ status: 1, stderr: 'no studio studio-9\n' });
    expect(await opened([after], studios[0] ?? '')).toEqual(secret);
  });

  it('opens nothing any more, is never followed by another, and is in the audit log', async () => {
    const [studioId = '', other = ''] = studios;
    expect(destroy('studio-0', 'studio-0').stdout).toBe('studio-0: destroyed\n');
    expect(destroy('studio-0', 'studio-0').stdout).toBe('studio-0: was destroyed before\n');
    await expect(opened([after, before], studioId)).rejects.toBeInstanceOf(StudioKeyDestroyed);
    await expect(
      as(studioId, (tx) => new StudioKeys([after]).seal(tx, studioId, place, secret)),
    ).rejects.toBeInstanceOf(StudioKeyDestroyed);
    expect(rotate(after, before).stdout).toBe('0 keys wrapped with after, 0 left\n');
    expect(await opened([after], other)).toEqual(secret);
    const { rows } = await admin.query(`SELECT action FROM audit_entries WHERE studio_id = $1`, [studioId]);
    expect(rows).toEqual([{ action: 'studio-keys.destroy' }]);
  });
});
