import { describe, expect, it } from '@jest/globals';
import { taskActionsIn } from './task-actions.js';

describe('task actions', () => {
  it.each([
    ['open', ['finish', 'snooze', 'assign']],
    ['snoozed', ['finish', 'snooze', 'assign', 'reopen']],
    ['done', ['reopen']],
  ] as const)('in state %s are %j', (state, actions) => {
    expect(taskActionsIn(state)).toEqual(actions);
  });
});
