import { describe, expect, it } from '@jest/globals';
import { randomBytes, randomUUID } from 'node:crypto';
import { SealBroken } from '../field-seal.js';
import { lookUpHash, opened, sealed, sealedColumn, sealedJson } from './sealed-fields.js';
import { NoKeyYet, studioScope, type KeyAtHand } from './studio-scope.js';

const studioId = randomUUID();
const key = randomBytes(32);
const within = <T>(work: () => T, at: { studioId?: string; key?: KeyAtHand } = {}): T =>
  studioScope.run({ studioId, key, ...at }, work);

const answers = { pain: 3, sites: ['knee'], told: 'it aches «at night»' };

describe('a sealed value', () => {
  it('is opened as what it was, in a column, in JSON, and however deep SQL put it', () => {
    within(() => {
      expect(sealedColumn.from(sealedColumn.to('a note'))).toBe('a note');
      expect(JSON.parse(sealedJson(answers) ?? '')).toMatch(/^sealed:[\w-]+$/);
      const rows = [{ id: '1', parts: [{ told: sealed(answers), on: new Date(0) }], told: null }];
      expect(opened(rows, 'told')).toEqual([
        { id: '1', parts: [{ told: answers, on: new Date(0) }], told: null },
      ]);
    });
  });

  it('is told from what somebody wrote that begins like one, however long', () => {
    const told = Array.from({ length: 9 }, (_, more) => `sealed: the spindle with ${'x'.repeat(20 + more)}`);
    within(() => {
      expect(opened([...told], 'told')).toEqual(told);
      expect(told.map((text) => opened({ text }, 'text').text)).toEqual(told);
    });
  });

  it('says nothing, and is never twice the same', () => {
    within(() => {
      expect(sealed('a note')).not.toEqual(sealed('a note'));
      expect(Buffer.from(sealed('a note')?.slice(7) ?? '', 'base64url').includes('a note')).toBe(false);
    });
  });

  it('leaves null null, and reads what was written before it was sealed', () => {
    within(() => {
      expect([sealed(null), sealedJson(null), sealedColumn.to(undefined)]).toEqual([null, null, undefined]);
      expect(opened({ told: answers, note: 'sealed: with tape' }, 'told', 'note')).toEqual({
        ...{ told: answers, note: 'sealed: with tape' },
      });
    });
  });

  it('is opened under the names asked for only', () => {
    within(() => {
      const row = { note: sealed('a'), name: `sealed:${'A'.repeat(60)}` };
      expect(opened(row, 'note')).toEqual({ ...row, note: 'a' });
      expect(() => opened(row, 'name')).toThrow(SealBroken);
    });
  });

  it('is not opened by another key, for another studio, or altered', () => {
    const value = within(() => sealed(answers)) ?? '';
    const open = (): unknown => opened({ value }, 'value');
    expect(() => within(open, { key: randomBytes(32) })).toThrow(SealBroken);
    expect(() => within(open, { studioId: randomUUID() })).toThrow(SealBroken);
    const other = value.at(-2) === 'A' ? 'B' : 'A';
    const altered = value.slice(0, -2) + other + value.slice(-1);
    expect(() => within(() => opened({ value: altered }, 'value'))).toThrow(SealBroken);
  });

  it('needs a transaction of a studio, and a key: one may be drawn to seal, none to open', () => {
    const value = within(() => sealed('a note'));
    expect(() => sealed('a note')).toThrow('in a transaction of a studio only');
    const toSeal = (work: () => unknown): boolean => {
      try {
        within(work, { key: null });
      } catch (error) {
        if (error instanceof NoKeyYet) return error.toSeal;
      }
      throw new Error('no key was wanted');
    };
    expect(toSeal(() => sealed('a note'))).toBe(true);
    expect(toSeal(() => opened({ value }, 'value'))).toBe(false);
    const destroyed = new Error('destroyed');
    expect(() => within(() => sealed('a note'), { key: destroyed })).toThrow(destroyed);
  });
});

it('a hash to look up by is the same for the same studio and value only', () => {
  const value = Buffer.from('pain: 3');
  const hash = within(() => lookUpHash(value));
  expect(within(() => lookUpHash(value))).toEqual(hash);
  expect(within(() => lookUpHash(Buffer.from('pain: 4')))).not.toEqual(hash);
  expect(within(() => lookUpHash(value), { studioId: randomUUID() })).not.toEqual(hash);
  expect(within(() => lookUpHash(value), { key: randomBytes(32) })).not.toEqual(hash);
});
