import { describe, expect, it } from '@jest/globals';
import { minorUnitDigits } from '@studio/money';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

/**
 * ISO 4217, "list one: current currency and funds code list", as published by the standard's maintenance agency; the
 * XML comes along with the currency package.
 */
const listOne = readFileSync(
  path.join(path.dirname(createRequire(import.meta.url).resolve('currency-codes')), 'iso-4217-list-one.xml'),
  'utf8',
);

const published = new Map(
  [...listOne.matchAll(/<CcyNtry>(.*?)<\/CcyNtry>/gs)].flatMap(([, entry = '']) => {
    const code = /<Ccy>([A-Z]{3})<\/Ccy>/.exec(entry)?.[1];
    const digits = /<CcyMnrUnts>([^<]+)<\/CcyMnrUnts>/.exec(entry)?.[1];
    return code === undefined || digits === undefined ? [] : [[code, digits] as const];
  }),
);

describe('minor units', () => {
  it('are those of the published list, for every currency on it', () => {
    expect(published.size).toBeGreaterThan(170);
    for (const [code, digits] of published) {
      expect([code, minorUnitDigits(code)]).toEqual([code, digits === 'N.A.' ? null : Number(digits)]);
    }
  });

  it('are none for a code that is not on it', () => {
    const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
    const every = letters.flatMap((a) => letters.flatMap((b) => letters.map((c) => a + b + c)));
    for (const code of every)
      if (!published.has(code)) expect([code, minorUnitDigits(code)]).toEqual([code, null]);
    expect(minorUnitDigits('eur')).toBeNull();
  });
});
