// RFC 6238, "TOTP: Time-Based One-Time Password Algorithm" (2011), Appendix B, the rows for SHA-1. The table has eight
// digits; a code of six is its last six, since RFC 4226 (5.3) takes the number modulo 10 to the power of the digits.
import { describe, expect, it } from '@jest/globals';
import { stepOf } from '../../../apps/api/src/features/sign-ins/one-time-codes.js';

const secret = Buffer.from('12345678901234567890', 'ascii');

describe('RFC 6238, Appendix B', () => {
  it.each([
    [59, '94287082', 0x1],
    [1111111109, '07081804', 0x23523ec],
    [1111111111, '14050471', 0x23523ed],
    [1234567890, '89005924', 0x273ef07],
    [2000000000, '69279037', 0x3f940aa],
    [20000000000, '65353130', 0x27bc86aa],
  ])('at %i s the code ends %s', (seconds, eight, step) => {
    const code = eight.slice(2);
    expect(stepOf(secret, code, new Date(seconds * 1000))).toBe(step);
    expect(stepOf(secret, code, new Date((seconds + 30) * 1000))).toBe(step);
    expect(stepOf(secret, code, new Date((seconds + 90) * 1000))).toBeNull();
  });
});
