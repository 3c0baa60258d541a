import { describe, expect, it } from '@jest/globals';
import { notStorable } from './storable.js';

const nested = (depth: number): unknown => JSON.parse(`${'['.repeat(depth)}${']'.repeat(depth)}`);

describe('notStorable', () => {
  it.each([undefined, null, 'text', 'a pair: 👩🏽‍🔧', 1, { a: [{ b: 'c' }] }, Buffer.from([0]), nested(32)])(
    'has nothing against %p',
    (value) => {
      expect(notStorable(value)).toBeUndefined();
    },
  );

  it.each([{ a: { b: ['x', 'a\0b'] } }, { a: { b: ['x', '\ud800'] } }])('names the field of %j', (value) => {
    expect(notStorable(value)).toMatchObject({ status: 400, errors: [{ field: 'a.b.1' }] });
  });

  it.each([{ 'a\0': 1 }, { '\udc00': 1 }])('finds it in the name of a field, too', (value) => {
    expect(notStorable(value)).toMatchObject({ code: 'request.invalid' });
  });

  it.each([34, 100_000])('refuses a body nested %d times', (depth) => {
    expect(notStorable(nested(depth))).toMatchObject({ status: 400, code: 'request.too-deep' });
  });
});
