import type { ProcessingActivity } from '@studio/retention';
import type { RecordsOfTable } from './export-person.queries.js';
import { fileKeys, fitSheetKeys } from '@studio/storage';

/** As docs/person-export.schema.json publishes it. */
export interface PersonCopy {
  readonly format: 'person-export';
  readonly version: 1;
  readonly madeAt: string;
  readonly studio: string;
  readonly processing: readonly ProcessingActivity[];
  readonly records: Readonly<Record<string, readonly object[]>>;
  readonly files: readonly { readonly path: string; readonly mediaType: string; readonly of: string }[];
}

export interface CopiedFile {
  readonly path: string;
  readonly mediaType: string;
  /** Id of the record it belongs to. */
  readonly of: string;
  /** In the storage. */
  readonly key: string;
}

const endings: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'application/pdf': 'pdf',
};

/** The bytes that belong to the records, under names made of ids: what people call files can lead anywhere. */
export function filesOf(studioId: string, tables: readonly RecordsOfTable[]): CopiedFile[] {
  const recordsOf = (wanted: string) => tables.find(({ table }) => table === wanted)?.records ?? [];
  const files = recordsOf('files').map((record): CopiedFile => {
    const [id, mediaType] = [String(record['id']), String(record['mediaType'])];
    const path = `files/${id}.${endings[mediaType] ?? 'bin'}`;
    return { path, mediaType, of: id, key: fileKeys(studioId, id).content };
  });
  const sheets = recordsOf('fit_sheets')
    .filter(({ state }) => state === 'ready')
    .map((record): CopiedFile => {
      const id = String(record['id']);
      const path = `fit-sheets/${id}.pdf`;
      return { path, mediaType: 'application/pdf', of: id, key: fitSheetKeys(studioId, id).pdf };
    });
  return [...files, ...sheets];
}
