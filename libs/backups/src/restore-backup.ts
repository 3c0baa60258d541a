import { migrate } from '@studio/database';
import type { ObjectStorage } from '@studio/storage';
import type { Readable } from 'node:stream';
import { json } from 'node:stream/consumers';
import pg from 'pg';
import { ArchiveUnreadable, readArchive, type ArchiveEntry } from './archive.js';
import { entryNames, format, type About, type Contents, type ObjectDigest } from './contents.js';
import { digesting } from './digesting.js';
import { copyIn, copyOut, copySettings, listTables, type Table, type TableDigest } from './table-copy.js';

/** What was restored is not what was backed up. */
export class RestoredDiffers extends Error {
  override readonly name = 'RestoredDiffers';
}

export interface RestoreOptions {
  /** Of the new database, of a role that may set `session_replication_role`. */
  readonly adminUrl: string;
  readonly ownerUrl: string;
  readonly storage: ObjectStorage;
  readonly archive: Readable;
  readonly identities: readonly string[];
  readonly testClock?: boolean;
}

/**
 * Read an archive into a database that has roles and extensions and no table yet, and into an empty storage. The schema
 * is made by the migrations the archive names; rows are read back and compared before they are committed; then the
 * migrations that came since run.
 *
 * @throws ArchiveUnreadable, RestoredDiffers, UnknownMigrations of an archive that newer code made
 */
export async function restoreBackup(options: RestoreOptions): Promise<Contents> {
  for await (const key of options.storage.list())
    throw new Error(`the storage is not empty: it holds ${key}`);
  const { ownerUrl, testClock = false } = options;
  await requireEmpty(options.adminUrl);
  const entries = readArchive(options.archive, options.identities);
  try {
    const about = await readJson<About>(await entries.next(), entryNames.about);
    if (about.format !== format) throw new ArchiveUnreadable(`it is of format ${about.format}`);
    await migrate({ ownerUrl, testClock, upTo: about.migrations });
    const tables = await restoreTables(options.adminUrl, about, entries);
    const objects = await restoreObjects(options.storage, entries);
    // Only at its end is an archive known to be whole.
    if (!(await entries.next()).done) throw new ArchiveUnreadable('it goes on after its end');
    await migrate({ ownerUrl, testClock });
    return { about, tables, objects };
  } finally {
    await entries.return(undefined);
  }
}

async function requireEmpty(adminUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl, application_name: 'studio-restore' });
  await client.connect();
  try {
    const { rows } = await client.query(
      `SELECT FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' LIMIT 1`,
    );
    if (rows.length > 0) throw new Error('the database is not empty: it holds tables');
  } finally {
    await client.end();
  }
}

async function restoreTables(
  adminUrl: string,
  about: About,
  entries: AsyncGenerator<ArchiveEntry>,
): Promise<TableDigest[]> {
  const client = new pg.Client({ connectionString: adminUrl, application_name: 'studio-restore' });
  await client.connect();
  try {
    // No trigger runs and no reference is looked at: what is copied was so before, in tables that refer to each other.
    await client.query(`BEGIN; SET LOCAL session_replication_role = 'replica'; ${copySettings}`);
    requireSame(await listTables(client), about.tables, 'tables');
    for (const { name } of about.tables) await client.query(`DELETE FROM ${client.escapeIdentifier(name)}`);
    const listed = await copyParts(client, about.tables, entries);
    const tables = await readJson<TableDigest[]>(listed, entryNames.tables);
    for (const table of about.tables) {
      const restored = await copyOut(client, table, () => undefined);
      requireSame(
        restored,
        tables.find(({ name }) => name === table.name),
        `table ${table.name}`,
      );
    }
    await client.query('COMMIT');
    await client.query('ANALYZE');
    return tables;
  } finally {
    await client.end();
  }
}

/** @returns the entry after the last part */
async function copyParts(
  client: pg.Client,
  tables: readonly Table[],
  entries: AsyncGenerator<ArchiveEntry>,
): Promise<IteratorResult<ArchiveEntry>> {
  let entry = await entries.next();
  for (const table of tables) {
    if (!isPartOf(table, entry)) continue;
    async function* rows(): AsyncGenerator<Buffer> {
      for (; isPartOf(table, entry); entry = await entries.next()) {
        yield* (entry.value as ArchiveEntry).content as AsyncIterable<Buffer>;
      }
    }
    await copyIn(client, table, rows());
  }
  return entry;
}

const isPartOf = ({ name }: Table, entry: IteratorResult<ArchiveEntry>): boolean =>
  entry.done !== true && entry.value.name.startsWith(`tables/${name}/`);

async function restoreObjects(
  storage: ObjectStorage,
  entries: AsyncGenerator<ArchiveEntry>,
): Promise<ObjectDigest[]> {
  const restored: ObjectDigest[] = [];
  const prefix = entryNames.object('');
  let entry = await entries.next();
  for (; entry.done !== true && entry.value.name.startsWith(prefix); entry = await entries.next()) {
    const key = entry.value.name.slice(prefix.length);
    const { content, digest } = digesting(entry.value.content);
    await storage.put(key, content, 'application/octet-stream');
    restored.push({ key, ...digest() });
  }
  const objects = await readJson<ObjectDigest[]>(entry, entryNames.objects);
  requireSame(restored, objects, 'objects');
  return objects;
}

async function readJson<T>(entry: IteratorResult<ArchiveEntry>, name: string): Promise<T> {
  const found = entry.done === true ? 'its end' : entry.value.name;
  if (entry.done === true || found !== name)
    throw new ArchiveUnreadable(`there is ${found} in place of ${name}`);
  return (await json(entry.value.content)) as T;
}

function requireSame(now: unknown, before: unknown, what: string): void {
  if (JSON.stringify(now) !== JSON.stringify(before)) throw new RestoredDiffers(what);
}
