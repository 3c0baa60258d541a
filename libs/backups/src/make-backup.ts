import type { ObjectStorage } from '@studio/storage';
import type { Writable } from 'node:stream';
import pg from 'pg';
import { ArchiveWriter } from './archive.js';
import { entryNames, format, type About, type Contents, type ObjectDigest } from './contents.js';
import { digesting } from './digesting.js';
import { copyOut, copySettings, listMigrations, listTables, type TableDigest } from './table-copy.js';

/** How much of a table is held in memory at once. */
const partBytes = 4 * 1024 * 1024;

/**
 * Write the whole database, as it is at one moment, and then every object of the storage into an archive. An object that
 * is removed meanwhile is left out; one that comes is taken along.
 *
 * @param adminUrl of a role that row-level security does not bind: the apps' roles see one studio at most
 * @throws what PostgreSQL, the storage or the output say; what was written is no archive then
 */
export async function makeBackup(options: {
  adminUrl: string;
  storage: ObjectStorage;
  recipients: readonly string[];
  output: Writable;
}): Promise<Contents> {
  const archive = ArchiveWriter.to(options.output, options.recipients);
  try {
    const { about, tables } = await addDatabase(archive, options.adminUrl);
    const objects = await addObjects(archive, options.storage);
    await archive.finish();
    return { about, tables, objects };
  } catch (error) {
    archive.abandon(error as Error);
    throw error;
  }
}

async function addDatabase(archive: ArchiveWriter, adminUrl: string): Promise<Omit<Contents, 'objects'>> {
  const client = new pg.Client({ connectionString: adminUrl, application_name: 'studio-backup' });
  await client.connect();
  try {
    await client.query(`BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY; ${copySettings}`);
    const { rows } = await client.query<{ madeAt: Date; postgres: string }>(
      `SELECT now() AS "madeAt", current_setting('server_version') AS postgres`,
    );
    const [{ madeAt, postgres }] = rows as [{ madeAt: Date; postgres: string }];
    const about: About = {
      ...{ format, madeAt: madeAt.toISOString(), postgres },
      migrations: await listMigrations(client),
      tables: await listTables(client),
    };
    await archive.add(entryNames.about, JSON.stringify(about, null, 2));
    const tables: TableDigest[] = [];
    for (const table of about.tables) tables.push(await addTable(archive, client, table));
    await archive.add(entryNames.tables, JSON.stringify(tables, null, 2));
    return { about, tables };
  } finally {
    await client.end();
  }
}

async function addTable(
  archive: ArchiveWriter,
  client: pg.Client,
  table: About['tables'][number],
): Promise<TableDigest> {
  let waiting: Buffer[] = [];
  let waitingBytes = 0;
  let parts = 0;
  const addPart = async (): Promise<void> => {
    const part = Buffer.concat(waiting);
    waiting = [];
    waitingBytes = 0;
    await archive.add(entryNames.part(table.name, parts), part);
    parts += 1;
  };
  const digest = await copyOut(client, table, async (chunk) => {
    waiting.push(chunk);
    waitingBytes += chunk.length;
    if (waitingBytes >= partBytes) await addPart();
  });
  if (waitingBytes > 0) await addPart();
  return digest;
}

async function addObjects(archive: ArchiveWriter, storage: ObjectStorage): Promise<ObjectDigest[]> {
  const objects: ObjectDigest[] = [];
  for await (const key of storage.list()) {
    const object = await storage.get(key);
    if (object === null) continue;
    const { content, digest } = digesting(object.content);
    await archive.addStream(entryNames.object(key), object.bytes, content);
    objects.push({ key, ...digest() });
  }
  await archive.add(entryNames.objects, JSON.stringify(objects, null, 2));
  return objects;
}
