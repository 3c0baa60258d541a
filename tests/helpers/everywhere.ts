import { opened } from '@studio/database';
import { Redis } from 'ioredis';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import pg from 'pg';
import { service, type TestDatabase } from './database.js';
import { asStudio } from './keys.js';

/** Tables and columns in which one of the words stands, as a superuser sees them: every column of every table. */
export async function columnsWith(database: TestDatabase, ...words: string[]): Promise<string[]> {
  const admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  try {
    const found: string[] = [];
    for (const name of await tablesOf(admin)) {
      // Bytes read as hexadecimal there: what is looked for is looked for as that, too.
      const { rows } = await admin.query<{ key: string }>(
        `SELECT DISTINCT field.key
           FROM ${name} t CROSS JOIN LATERAL jsonb_each_text(to_jsonb(t)) AS field
          WHERE EXISTS (SELECT FROM unnest($1::text[]) AS word
                         WHERE position(lower(word) IN lower(field.value)) > 0
                            OR position(encode(convert_to(word, 'UTF8'), 'hex') IN field.value) > 0)
          ORDER BY 1`,
        [words],
      );
      found.push(...rows.map(({ key }) => `${name}.${key}`));
    }
    return found;
  } finally {
    await admin.end();
  }
}

async function tablesOf(admin: pg.Client): Promise<string[]> {
  const { rows } = await admin.query<{ name: string }>(
    `SELECT relname AS name FROM pg_class
      WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p', 'm') AND NOT relispartition ORDER BY 1`,
  );
  return rows.map(({ name }) => name);
}

/** As `columnsWith`, of what lies there sealed: opened with the key of its studio. */
export async function sealedColumnsWith(
  database: TestDatabase,
  studioId: string,
  ...words: string[]
): Promise<string[]> {
  const admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  try {
    const lying: { column: string; sealed: string[] }[] = [];
    for (const name of await tablesOf(admin)) {
      const { rows } = await admin.query<{ column: string; value: string }>(
        `SELECT field.key AS column, field.value
           FROM ${name} t CROSS JOIN LATERAL jsonb_each_text(to_jsonb(t)) AS field
          WHERE field.value LIKE '%sealed:%' AND to_jsonb(t) ->> 'studio_id' = $1`,
        [studioId],
      );
      for (const { column, value } of rows)
        lying.push({ column: `${name}.${column}`, sealed: value.match(/sealed:[\w-]+/g) ?? [] });
    }
    const said = await asStudio(database, studioId, () => Promise.resolve(opened(lying, 'sealed')));
    const found = new Set(
      said
        .filter(({ sealed }) => {
          const text = JSON.stringify(sealed).toLowerCase();
          return words.some((word) => text.includes(word.toLowerCase()));
        })
        .map(({ column }) => column),
    );
    return [...found];
  } finally {
    await admin.end();
  }
}

/** Files of a storage folder, by their path in it. */
export async function storedFiles(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)))
    .sort();
}

/** Files of a storage folder that hold one of the words. */
export async function filesWith(folder: string, ...words: string[]): Promise<string[]> {
  const found: string[] = [];
  for (const file of await storedFiles(folder)) {
    const content = await readFile(path.join(folder, file)).catch((error: unknown) => {
      // It was still being written, under another name.
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return '';
      throw error;
    });
    if (words.some((word) => content.includes(word))) found.push(file);
  }
  return found;
}

/** Keys of Redis in whose name or value one of the words stands. */
export async function redisKeysWith(...words: string[]): Promise<string[]> {
  const redis = new Redis(service('TEST_REDIS_URL'));
  try {
    const found: string[] = [];
    for (const key of await redis.keys('*')) {
      const said = `${key} ${await valueOf(redis, key)}`.toLowerCase();
      if (words.some((word) => said.includes(word.toLowerCase()))) found.push(key);
    }
    return found;
  } finally {
    redis.disconnect();
  }
}

async function valueOf(redis: Redis, key: string): Promise<string> {
  switch (await redis.type(key)) {
    case 'string':
      return (await redis.get(key)) ?? '';
    case 'hash':
      return JSON.stringify(await redis.hgetall(key));
    case 'list':
      return JSON.stringify(await redis.lrange(key, 0, -1));
    case 'set':
      return JSON.stringify(await redis.smembers(key));
    case 'zset':
      return JSON.stringify(await redis.zrange(key, 0, -1));
    case 'stream':
      return JSON.stringify(await redis.xrange(key, '-', '+'));
    default:
      return '';
  }
}
