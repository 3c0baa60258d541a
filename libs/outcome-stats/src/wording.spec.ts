import { describe, expect, it } from '@jest/globals';
import { oneDecimal, spelled } from './wording.js';

describe('numbers in sentences', () => {
  it('have a sign only where something is left of them', () => {
    expect([-3.25, -0.04, 0, 0.04, 0.05].map(oneDecimal)).toEqual(['-3.3', '0.0', '0.0', '0.0', '0.1']);
    expect(spelled({ low: -0.01, high: 1 })).toBe('0.0 to 1.0');
  });
});
