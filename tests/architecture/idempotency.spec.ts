import { expect, it } from '@jest/globals';
import { creates, withoutKey } from '../helpers/creates.js';

it('every create takes an Idempotency-Key, but for those that say why not', () => {
  expect(creates.length).toBeGreaterThan(40);
  expect(
    creates
      .filter(({ takesKey }) => !takesKey)
      .map(({ id }) => id)
      .sort(),
  ).toEqual([...withoutKey.keys()].sort());
});
