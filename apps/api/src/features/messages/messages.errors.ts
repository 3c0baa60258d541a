import type { MessageState } from '@studio/database';
import { ApiError } from '../../http/problem.js';

/** What may be done with a message in a state. */
export const messageActions = {
  queued: ['cancel'],
  sending: [],
  sent: ['repeat'],
  failed: ['repeat'],
  gave_up: ['repeat'],
  cancelled: ['repeat'],
} as const satisfies Record<MessageState, readonly ('cancel' | 'repeat')[]>;

export class MessageNotPossible extends ApiError {
  readonly code = 'messages.not-possible';
  readonly status = 409;
  readonly title = 'The state of the message does not allow it';

  constructor(state: MessageState) {
    const allowed = messageActions[state];
    super(`It is ${state}; possible: ${allowed.length === 0 ? 'nothing' : allowed.join(', ')}.`, {
      state,
      allowed,
    });
  }
}

export class LinkForgotten extends ApiError {
  readonly code = 'messages.link-forgotten';
  readonly status = 409;
  readonly title = 'The link it held is kept nowhere; ask for a new one where it came from';
}

export class StillBeingSent extends ApiError {
  readonly code = 'messages.still-being-sent';
  readonly status = 503;
  readonly title = 'The message is being sent this moment; report again in a minute';
}
