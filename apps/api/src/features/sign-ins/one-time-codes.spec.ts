import { describe, expect, it } from '@jest/globals';
import { isRecoveryCode, newRecoveryCodes, newTotpSecret, stepOf, toEnrol } from './one-time-codes.js';

describe('one-time codes', () => {
  it('gives an authenticator an address with the studio, the person and the secret in base 32', () => {
    const secret = newTotpSecret();
    const { address, secret: typed } = toEnrol(secret, 'ines@harbour-lane.example', 'Harbour Lane');
    const url = new URL(address);
    expect(url.protocol).toBe('otpauth:');
    expect(url.searchParams.get('secret')).toBe(typed);
    expect(typed).toMatch(/^[A-Z2-7]{32}$/);
    expect(decodeURIComponent(url.pathname)).toContain('ines@harbour-lane.example');
  });

  it('takes nothing that is no code', () => {
    for (const code of ['', '12345', '1234567', 'abcdef', '12 345'])
      expect(stepOf(newTotpSecret(), code, new Date())).toBeNull();
  });

  it('draws ten recovery codes of 120 bits, each another', () => {
    const codes = newRecoveryCodes();
    expect(new Set(codes).size).toBe(10);
    for (const code of codes) expect(isRecoveryCode(code)).toBe(true);
    expect(isRecoveryCode('492039')).toBe(false);
  });
});
