import { createHash } from 'node:crypto';
import { pipeline } from 'node:stream/promises';
import type { Client } from 'pg';
import copyStreams from 'pg-copy-streams';

export interface Table {
  readonly name: string;
  readonly columns: readonly string[];
  /** The primary key of a partitioned table: its rows lie in no order that another would have them in. */
  readonly key?: readonly string[];
}

/** What a table holds, told so that another with the same rows in the same order tells the same. */
export interface TableDigest {
  readonly name: string;
  readonly rows: number;
  readonly bytes: number;
  /** SHA-256 of the rows as COPY writes them, in hexadecimal. */
  readonly sha256: string;
}

/** Made by migrating, not by restoring. */
const notCopied = ['migrations', 'migrations_id_seq'];

/** So that the same rows are written in the same way and order, whoever asks. Another's scan would turn the order. */
export const copySettings = `SET LOCAL TimeZone = 'UTC'; SET LOCAL DateStyle = 'ISO, YMD'; SET LOCAL IntervalStyle = 'postgres';
  SET LOCAL extra_float_digits = 1; SET LOCAL bytea_output = 'hex'; SET LOCAL synchronize_seqscans = off;
  SET LOCAL row_security = off`;

/**
 * Every table with its columns, but for those PostgreSQL works out itself.
 *
 * @throws Error when the database holds something that copying tables would leave out
 */
export async function listTables(client: Client): Promise<Table[]> {
  const { rows: others } = await client.query<{ name: string; kind: string }>(
    `SELECT relname AS name, relkind AS kind FROM pg_class
      WHERE relnamespace = 'public'::regnamespace AND relkind IN ('S', 'm', 'f') AND relname <> ALL ($1)`,
    [notCopied],
  );
  if (others.length > 0) {
    throw new Error(
      `backups do not know of ${others.map(({ name, kind }) => `${name} (${kind})`).join(', ')}`,
    );
  }
  const { rows } = await client.query<{ name: string; columns: string[]; key: string[] | null }>(
    `SELECT c.relname::text AS name,
            array_agg(a.attname::text ORDER BY a.attname) FILTER (WHERE a.attgenerated = '') AS columns,
            array_agg(a.attname::text ORDER BY a.attnum) FILTER (WHERE c.relkind = 'p' AND EXISTS (
              SELECT FROM pg_index i WHERE i.indrelid = c.oid AND i.indisprimary AND a.attnum = ANY (i.indkey))) AS key
       FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
      WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
        AND c.relname <> ALL ($1)
      GROUP BY c.relname ORDER BY c.relname`,
    [notCopied],
  );
  return rows.map(({ key, ...table }) => (key === null ? table : { ...table, key }));
}

/** The names of the migrations that made the schema. */
export async function listMigrations(client: Client): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>('SELECT name FROM migrations ORDER BY id');
  return rows.map(({ name }) => name);
}

/** Hands every chunk of a table's rows on, and tells what it was. The transaction has `copySettings`. */
export async function copyOut(
  client: Client,
  table: Table,
  take: (chunk: Buffer) => Promise<void> | void,
): Promise<TableDigest> {
  const copy = client.query(copyStreams.to(`COPY ${rowsOf(client, table)} TO STDOUT`));
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const chunk of copy as AsyncIterable<Buffer>) {
    hash.update(chunk);
    bytes += chunk.length;
    await take(chunk);
  }
  return { name: table.name, rows: copy.rowCount, bytes, sha256: hash.digest('hex') };
}

/** Writes rows as `copyOut` gave them. */
export async function copyIn(client: Client, table: Table, chunks: AsyncIterable<Buffer>): Promise<void> {
  await pipeline(chunks, client.query(copyStreams.from(`COPY ${nameOf(client, table)} FROM STDIN`)));
}

function nameOf(client: Client, { name, columns }: Table): string {
  return `${client.escapeIdentifier(name)} (${listed(client, columns)})`;
}

function rowsOf(client: Client, table: Table): string {
  const { name, columns, key } = table;
  if (key === undefined) return nameOf(client, table);
  return `(SELECT ${listed(client, columns)} FROM ${client.escapeIdentifier(name)} ORDER BY ${listed(client, key)})`;
}

const listed = (client: Client, columns: readonly string[]): string =>
  columns.map((column) => client.escapeIdentifier(column)).join(', ');
