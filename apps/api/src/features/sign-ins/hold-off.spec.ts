import { describe, expect, it } from '@jest/globals';
import { secondsToWait } from './hold-off.js';

const now = new Date('2026-03-02T09:00:00Z');
const minutesAgo = (minutes: number): Date => new Date(now.getTime() - minutes * 60_000);
const none = { here: null, account: null, address: null };

describe('holding off', () => {
  it('lets go on whoever filled nothing', () => {
    expect(secondsToWait({ ...none, known: false }, now)).toBe(0);
  });

  it('ends a quarter of an hour after the failure that filled it', () => {
    expect(secondsToWait({ ...none, here: minutesAgo(5), known: true }, now)).toBe(600);
    expect(secondsToWait({ ...none, here: minutesAgo(15), known: true }, now)).toBe(0);
  });

  it('never makes an address the account knows wait for what others did', () => {
    const others = { here: null, account: minutesAgo(1), address: minutesAgo(2) };
    expect(secondsToWait({ ...others, known: true }, now)).toBe(0);
    expect(secondsToWait({ ...others, known: false }, now)).toBe(59 * 60);
  });
});
