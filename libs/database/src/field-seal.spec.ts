import { describe, expect, it } from '@jest/globals';
import { randomBytes } from 'node:crypto';
import { seal, SealBroken, unseal } from './field-seal.js';

const key = randomBytes(32);
const plain = Buffer.from('a note of the rider');

describe('a sealed field', () => {
  it('opens with its key at its place, and never looks the same twice', () => {
    const sealed = seal(key, 'notes.text/1', plain);
    expect(unseal(key, 'notes.text/1', sealed)).toEqual(plain);
    expect(seal(key, 'notes.text/1', plain)).not.toEqual(sealed);
    expect(sealed.includes(plain)).toBe(false);
  });

  it('opens neither elsewhere, nor with another key, nor altered in any byte', () => {
    const sealed = seal(key, 'notes.text/1', plain);
    expect(() => unseal(key, 'notes.text/2', sealed)).toThrow(SealBroken);
    expect(() => unseal(randomBytes(32), 'notes.text/1', sealed)).toThrow(SealBroken);
    for (let at = 0; at < sealed.length; at += 1) {
      const altered = Buffer.from(sealed);
      altered.writeUInt8(altered.readUInt8(at) ^ 1, at);
      expect(() => unseal(key, 'notes.text/1', altered)).toThrow(SealBroken);
    }
    expect(() => unseal(key, 'notes.text/1', sealed.subarray(0, 20))).toThrow(SealBroken);
  });
});
