import { describe, expect, it } from '@jest/globals';
import { appointmentStates } from '@studio/database';
import { actionsIn, appointmentActions } from './appointment-actions.js';

describe('appointment actions', () => {
  it.each([
    ['held', ['book', 'move', 'cancel']],
    ['booked', ['move', 'cancel', 'check_in', 'mark_no_show']],
    ['checked_in', ['complete', 'reinstate']],
    ['no_show', ['reinstate']],
    ['completed', []],
    ['cancelled', []],
    ['lapsed', []],
  ] as const)('in state %s are %j', (state, actions) => {
    expect(actionsIn(state)).toEqual(actions);
  });

  it('reach every state but the ones that appointments begin in or run into', () => {
    const reached = new Set<string | null>(Object.values(appointmentActions).map(({ to }) => to));
    expect(appointmentStates.filter((state) => !reached.has(state))).toEqual(['held', 'lapsed']);
  });
});
