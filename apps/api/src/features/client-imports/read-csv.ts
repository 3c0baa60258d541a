import { CsvError, parse } from 'csv-parse/sync';
import { CsvUnreadable } from './client-imports.errors.js';

export interface CsvList {
  readonly charset: string;
  readonly separator: string;
  readonly headers: string[];
  readonly rows: string[][];
}

const separators = [',', ';', '\t', '|'] as const;
const mostColumns = 60;
const mostRows = 5_000;
const longestCell = 4_000;

/** Byte order marks (Unicode Standard, 23.8). */
const marks = [
  { charset: 'utf-8', bytes: [0xef, 0xbb, 0xbf] },
  { charset: 'utf-16le', bytes: [0xff, 0xfe] },
  { charset: 'utf-16be', bytes: [0xfe, 0xff] },
] as const;

/**
 * A list as its bytes tell it: by a byte order mark, or as UTF-8, or, where it is not that, as Windows-1252, which
 * spreadsheets of the West write. The separator is the one that makes the most columns of the first line.
 *
 * @throws CsvUnreadable for what is no list: no text, no headers, two alike, more than 5,000 rows, an open quote
 */
export function readCsv(bytes: Buffer): CsvList {
  const { charset, text } = decode(bytes);
  if (text.includes('\0')) throw new CsvUnreadable('it is not text');
  const separator = separatorOf(text);
  const [first = [], ...rows] = parsed(text, separator);
  const headers = first.map((header) => header.trim());
  if (headers.every((header) => header === '')) throw new CsvUnreadable('its first line has no headers');
  if (headers.length > mostColumns) throw new CsvUnreadable(`it has more than ${mostColumns} columns`);
  const twice = headers.find((header, at) => header !== '' && headers.indexOf(header) !== at);
  if (twice !== undefined) throw new CsvUnreadable('two of its columns have the same header');
  if (rows.length === 0) throw new CsvUnreadable('it has no rows');
  if (rows.length > mostRows) throw new CsvUnreadable(`it has more than ${mostRows} rows`);
  if (rows.flat().some(({ length }) => length > longestCell)) throw new CsvUnreadable('a cell is too long');
  return { charset, separator, headers, rows };
}

function decode(bytes: Buffer): { charset: string; text: string } {
  const mark = marks.find((one) => one.bytes.every((byte, at) => bytes[at] === byte));
  if (mark) return { charset: mark.charset, text: new TextDecoder(mark.charset).decode(bytes) };
  try {
    return { charset: 'utf-8', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { charset: 'windows-1252', text: new TextDecoder('windows-1252').decode(bytes) };
  }
}

function separatorOf(text: string): string {
  const columns = (separator: string): number => parsed(text, separator, 1)[0]?.length ?? 0;
  return separators.reduce((best, one) => (columns(one) > columns(best) ? one : best));
}

function parsed(text: string, delimiter: string, to?: number): string[][] {
  try {
    return parse(text, {
      delimiter,
      relax_column_count: true,
      skip_empty_lines: true,
      ...(to !== undefined && { to }),
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const { lines } = error as { lines?: number };
    throw new CsvUnreadable(`line ${lines ?? 1} cannot be read: a quote is open, or stands in the middle`);
  }
}
