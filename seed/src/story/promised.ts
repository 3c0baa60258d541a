import { dataOf, type StudioClient } from '@studio/api-client';
import { holds, say } from './tell.js';

/** What is promised for later, and that nothing of it was forgotten. */
export async function nothingForgotten(owner: StudioClient): Promise<void> {
  const { queues, workers } = await dataOf(owner.GET('/v1/queues'));
  const sum = (key: 'scheduled' | 'failed'): number => queues.reduce((total, queue) => total + queue[key], 0);
  holds('a worker lives', workers.alive > 0);
  holds('no order was given up', sum('failed') === 0);
  say(
    `${sum('scheduled')} things are promised for later days, and none was given up: GET /v1/queues shows it live.`,
  );
}
