import { describe, expect, it } from '@jest/globals';
import { CsvUnreadable } from './client-imports.errors.js';
import { readCsv } from './read-csv.js';

const list = 'Vorname;Nachname\r\nJürgen;Größe\r\n';

describe('a list as CSV', () => {
  it.each([
    ['utf-8', Buffer.from(list)],
    ['utf-8', Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), Buffer.from(list)])],
    ['utf-16le', Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(list, 'utf16le')])],
    ['utf-16be', Buffer.concat([Buffer.from([0xfe, 0xff]), Buffer.from(list, 'utf16le').swap16()])],
    // Letters of Windows-1252 above 0x9f are those of Latin-1 (Unicode mapping table CP1252).
    ['windows-1252', Buffer.from(list, 'latin1')],
  ])('in %s reads the same', (charset, bytes) => {
    expect(readCsv(bytes)).toEqual({
      ...{ charset, separator: ';', headers: ['Vorname', 'Nachname'] },
      rows: [['Jürgen', 'Größe']],
    });
  });

  it.each([',', ';', '\t', '|'])('is separated by %j as its first line is', (separator) => {
    const text = `a${separator}b\n"1${separator} ""x""\n2"${separator}3\n`;
    expect(readCsv(Buffer.from(text))).toMatchObject({ separator, rows: [[`1${separator} "x"\n2`, '3']] });
  });

  it('with rows too short or too long is read; each row is judged later', () => {
    expect(readCsv(Buffer.from('a,b\n1\n\n1,2,3\n')).rows).toEqual([['1'], ['1', '2', '3']]);
  });

  it.each([
    ['nothing', ''],
    ['headers alone', 'a,b\n'],
    ['no headers', ',\n1,2\n'],
    ['two headers alike', 'a,a\n1,2\n'],
    ['an open quote', 'a,b\n"1,2\n'],
    ['a quote in the middle', 'a,b\n1"x,2\n'],
    ['a NUL', 'a,b\n1,\u00002\n'],
    ['too many rows', `a\n${'1\n'.repeat(5001)}`],
    ['too many columns', `${Array.from({ length: 61 }, (_, at) => `c${at}`).join(',')}\n1\n`],
    ['a cell too long', `a\n${'x'.repeat(4001)}\n`],
  ])('that is %s is refused', (_, text) => {
    expect(() => readCsv(Buffer.from(text))).toThrow(CsvUnreadable);
  });
});
