import { describe, expect, it } from '@jest/globals';
import { deskNotice } from './desk-notice.js';

describe('what the front desk is told', () => {
  it.each([
    [{ level: 'full', barred: [] }, 'may_be_booked'],
    [{ level: 'limited', barred: ['shoe_work'] }, 'needs_a_call'],
    [{ level: 'limited', barred: ['riding', 'hard_effort'] }, 'not_before_clearance'],
    [{ level: 'none', barred: ['riding', 'hard_effort', 'shoe_work'] }, 'not_before_clearance'],
  ] as const)('%j: %s', (permission, notice) => {
    expect(deskNotice({ permission })).toBe(notice);
  });
});
