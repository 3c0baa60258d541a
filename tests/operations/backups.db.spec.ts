import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, signIn } from '@studio/api-client';
import { makeBackup, newBackupKey, restoreBackup } from '@studio/backups';
import { createDataSource, migrate, sealAuditEntries } from '@studio/database';
import { FolderStorage } from '@studio/storage';
import { spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { createReadStream, createWriteStream } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { databaseUrls, dropDatabase, prepareDatabase, urlOf } from '../../scripts/services/roles.mjs';
import { service, type TestDatabase } from '../helpers/database.js';
import { uploadPhoto } from '../helpers/files.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let folder: string;
let clientId: string;
let photoId: string;
const made: string[] = [];

const passwords = () => ({
  owner: service('TEST_PG_OWNER_PASSWORD'),
  api: service('TEST_PG_API_PASSWORD'),
  worker: service('TEST_PG_WORKER_PASSWORD'),
});
const inFolder = (name: string): string => path.join(folder, name);
const newDatabase = (): string => {
  const name = `restored_${randomBytes(6).toString('hex')}`;
  made.push(name);
  return name;
};

/** One of the commands, as whoever keeps the server runs it. */
function run(script: 'backup' | 'backup-key' | 'restore', args: string[], env: NodeJS.ProcessEnv = {}) {
  const { owner, api: apiPassword, worker } = passwords();
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [path.resolve(import.meta.dirname, `../../scripts/${script}.mjs`), ...args],
    {
      encoding: 'utf8',
      env: {
        PATH: process.env['PATH'],
        DATABASE_URL: service('TEST_PG_ADMIN_URL'),
        DATABASE_NAME: new URL(api.database.adminUrl).pathname.slice(1),
        FITTING_OWNER_PASSWORD: owner,
        FITTING_API_PASSWORD: apiPassword,
        FITTING_WORKER_PASSWORD: worker,
        STORAGE_FOLDER: api.storageFolder,
        BACKUP_IDENTITY_FILE: inFolder('key'),
        ...env,
      },
    },
  );
  return { status, said: `${stdout}${stderr}` };
}

async function asAdmin(statement: string, url = api.database.adminUrl): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await client.query(statement);
  } finally {
    await client.end();
  }
}

let recipients: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'backups-'));
  api = await startTestApi();
  here = await openTestStudio(api);
  const client = await takeOnClient(here.owner);
  ({ clientId } = client);
  await screen(here.owner, clientId);
  await signedSession(here.owner, client);
  photoId = (await uploadPhoto(here.owner, clientId)).id;
  const dataSource = await createDataSource({
    ...{ url: api.database.workerUrl, poolSize: 1, applicationName: 'test' },
  }).initialize();
  await dataSource.transaction(async (tx) => {
    await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [here.studio.studioId]);
    await sealAuditEntries(tx, here.studio.studioId);
  });
  await dataSource.destroy();
  recipients = /age1\S+/.exec(run('backup-key', [inFolder('key')]).said)?.[0] ?? '';
});
afterAll(async () => {
  await api.close();
  for (const name of made) await dropDatabase(service('TEST_PG_ADMIN_URL'), name);
  await rm(folder, { recursive: true });
});

describe('a backup', () => {
  let file: string;
  beforeAll(() => {
    file = inFolder('studio.age');
    const { status, said } = run('backup', [file], { BACKUP_RECIPIENTS: recipients });
    expect([status, said]).toEqual([0, expect.stringMatching(/, \d+ rows, 2 files\nsha256 [0-9a-f]{64}\n$/)]);
  });

  it('holds, as a drill tells that leaves nothing behind', async () => {
    const databases = async (): Promise<string[]> =>
      (await asAdmin(`SELECT datname FROM pg_database WHERE datname LIKE 'restore_drill_%'`))
        .rows as string[];
    const { status, said } = run('restore', [file, '--drill']);
    expect([status, said]).toEqual([0, expect.stringContaining('2 files: each as it was')]);
    expect(said).toContain(`${here.studio.handle}: 1 signatures, 0 broken; 1 seals, 0 broken`);
    expect(await databases()).toEqual([]);
  });

  it('brings a studio back: people sign in, records are intact, photos are there', async () => {
    const name = newDatabase();
    const storageFolder = inFolder('files');
    const { status, said } = run('restore', [file], { DATABASE_NAME: name, STORAGE_FOLDER: storageFolder });
    expect([status, said]).toEqual([0, expect.stringContaining(`into ${name}`)]);

    const adminUrl = urlOf(service('TEST_PG_ADMIN_URL'), { database: name });
    const urls = databaseUrls({ adminUrl, database: name, passwords: passwords() });
    const database: TestDatabase = { ...urls, adminUrl, drop: () => Promise.resolve() };
    const restored = await startTestApi({ STORAGE_FOLDER: storageFolder, TEST_CLOCK: '0' }, database);
    try {
      const { handle, owner } = here.studio;
      const again = await signIn(restored.url, {
        ...{ studio: handle, email: owner.email, password: owner.password },
      });
      const path = { clientId };
      expect(await dataOf(again.GET('/v1/clients/{clientId}', { params: { path } }))).toEqual(
        await dataOf(here.owner.GET('/v1/clients/{clientId}', { params: { path } })),
      );
      expect(await dataOf(again.GET('/v1/record-verification'))).toMatchObject({
        intact: true,
        signatures: 1,
      });
      expect(await dataOf(again.GET('/v1/audit-verification'))).toMatchObject({ intact: true, seals: 1 });
      const photo = await dataOf(again.GET('/v1/files/{fileId}', { params: { path: { fileId: photoId } } }));
      expect(photo).toMatchObject({ id: photoId });
    } finally {
      await restored.close();
    }
    const [kept, original] = [new FolderStorage(storageFolder), new FolderStorage(api.storageFolder)];
    expect(await contentsOf(kept)).toEqual(await contentsOf(original));

    // Where something is, nothing is put beside it.
    expect(run('restore', [file], { DATABASE_NAME: name, STORAGE_FOLDER: inFolder('other') })).toEqual({
      status: 1,
      said: expect.stringContaining('is there already') as unknown as string,
    });
  });

  it('that is not whole is refused, and leaves nothing', async () => {
    const spoilt = inFolder('spoilt.age');
    await writeFile(spoilt, (await readFile(file)).subarray(0, -1000));
    const name = newDatabase();
    const { status, said } = run('restore', [spoilt], {
      ...{ DATABASE_NAME: name, STORAGE_FOLDER: inFolder('spoilt') },
    });
    expect([status, said]).toEqual([1, expect.stringContaining('ArchiveUnreadable')]);
    const { rowCount } = await asAdmin(`SELECT FROM pg_database WHERE datname = '${name}'`);
    expect(rowCount).toBe(0);
  });

  it('of records that are not as they were signed tells so when it is restored', async () => {
    await asAdmin(`BEGIN; SET LOCAL session_replication_role = 'replica';
                   UPDATE measurements SET mean = mean + 1; COMMIT`);
    const altered = inFolder('altered.age');
    expect(run('backup', [altered], { BACKUP_RECIPIENTS: recipients }).status).toBe(0);
    const { status, said } = run('restore', [altered, '--drill']);
    expect(status).toBe(1);
    expect(said).toContain(`${here.studio.handle}: signed records or audit log are not as they were`);
  });

  it('is not made of a database that holds what it does not know', async () => {
    await asAdmin('CREATE SEQUENCE invoice_numbers');
    try {
      const { status, said } = run('backup', [inFolder('partial.age')], { BACKUP_RECIPIENTS: recipients });
      expect([status, said]).toEqual([1, expect.stringContaining('invoice_numbers (S)')]);
    } finally {
      await asAdmin('DROP SEQUENCE invoice_numbers');
    }
  });
});

it('of an older schema is brought up to the newest', async () => {
  const adminUrl = service('TEST_PG_ADMIN_URL');
  const names = (await asAdmin('SELECT name FROM migrations ORDER BY id')).rows.map(
    ({ name }: { name: string }) => name,
  );
  const [older, newer] = [newDatabase(), newDatabase()];
  const urls = await prepareDatabase({ adminUrl, database: older, passwords: passwords() });
  const upTo = names.slice(0, -1);
  expect(await migrate({ ownerUrl: urls.ownerUrl, testClock: false, upTo })).toEqual(upTo);
  const { identity, recipient } = await newBackupKey();
  const file = inFolder('older.age');
  const storage = new FolderStorage(inFolder('none'));
  await makeBackup({
    ...{ adminUrl: urlOf(adminUrl, { database: older }), storage, recipients: [recipient] },
    output: createWriteStream(file),
  });
  const { ownerUrl } = await prepareDatabase({ adminUrl, database: newer, passwords: passwords() });
  const restored = urlOf(adminUrl, { database: newer });
  await restoreBackup({
    ...{ adminUrl: restored, ownerUrl, storage, identities: [identity] },
    archive: createReadStream(file),
  });
  const { rows } = await asAdmin('SELECT name FROM migrations ORDER BY id', restored);
  expect(rows.map(({ name }: { name: string }) => name)).toEqual(names);
});

async function contentsOf(storage: FolderStorage): Promise<Record<string, number>> {
  const found: Record<string, number> = {};
  for await (const key of storage.list()) {
    const object = await storage.get(key);
    object?.content.destroy();
    found[key] = object?.bytes ?? -1;
  }
  return found;
}
