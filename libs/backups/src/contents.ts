import type { Table, TableDigest } from './table-copy.js';

/** What an archive is made of, in this order: its `about`, the tables' parts, `tables`, the objects, `objects`. */
export const entryNames = {
  about: 'about.json',
  tables: 'tables.json',
  objects: 'objects.json',
  /** The n-th part of a table's rows. */
  part: (table: string, n: number): string => `tables/${table}/${String(n).padStart(6, '0')}`,
  object: (key: string): string => `objects/${key}`,
} as const;

export const format = 1;

export interface About {
  readonly format: number;
  /** RFC 3339; the state is that of this moment. */
  readonly madeAt: string;
  readonly postgres: string;
  readonly migrations: readonly string[];
  readonly tables: readonly Table[];
}

export interface ObjectDigest {
  readonly key: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface Contents {
  readonly about: About;
  readonly tables: readonly TableDigest[];
  readonly objects: readonly ObjectDigest[];
}
