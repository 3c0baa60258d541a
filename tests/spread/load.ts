import type { StudioClient } from '@studio/api-client';
import { randomUUID } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';

const callers = 4;
const answersWithinMs = 20_000;
const pauseMs = 100;

export interface Counts {
  /** Creates asked for, however often. */
  creates: number;
  /** Requests that were sent, creates and reads. */
  sent: number;
  /** Those that were answered by what was asked for. */
  answered: number;
  /** Those that had to be sent again: cut off, or answered by 5xx. */
  retried: number;
  /** Answers that no retry would mend. */
  wrong: string[];
}

/**
 * Callers that take clients on and read them back, one after another, each as a careful caller does: what is not
 * answered is sent again with the same Idempotency-Key until it is.
 */
export class Load {
  /** What was answered as created: the id by the address given. */
  readonly created = new Map<string, string>();
  readonly total: Counts = { creates: 0, sent: 0, answered: 0, retried: 0, wrong: [] };
  private stopping = false;
  private readonly running: Promise<void>[];

  constructor(private readonly studio: StudioClient) {
    this.running = Array.from({ length: callers }, () => this.call());
  }

  async stop(): Promise<void> {
    this.stopping = true;
    await Promise.all(this.running);
  }

  /** Waits until so many more have been answered. */
  async answers(count: number): Promise<void> {
    const wanted = this.total.answered + count;
    while (this.total.answered < wanted) await sleep(20);
  }

  private async call(): Promise<void> {
    while (!this.stopping) {
      const email = `${randomUUID()}@load.example`;
      const headers = { 'Idempotency-Key': randomUUID() };
      this.total.creates += 1;
      const client = await this.untilAnswered((signal) =>
        this.studio.POST('/v1/clients', {
          ...{ headers, signal, body: { givenName: 'Load', familyName: 'Rider', email } },
        }),
      );
      if (!client) continue;
      this.created.set(email, client.id);
      const read = await this.untilAnswered((signal) =>
        this.studio.GET('/v1/clients/{clientId}', { signal, params: { path: { clientId: client.id } } }),
      );
      if (read?.email !== email) this.total.wrong.push('a client is not as it was created');
      await this.untilAnswered((signal) => this.studio.GET('/v1/outcomes/review', { signal }));
    }
  }

  private async untilAnswered<T>(
    ask: (signal: AbortSignal) => Promise<{ data?: T; response: Response }>,
  ): Promise<T | undefined> {
    for (;;) {
      this.total.sent += 1;
      try {
        const answer = await ask(AbortSignal.timeout(answersWithinMs));
        if (answer.response.ok) {
          this.total.answered += 1;
          return answer.data;
        }
        if (answer.response.status < 500) {
          this.total.wrong.push(`${answer.response.status} ${answer.response.url}`);
          return undefined;
        }
      } catch {
        // Cut off: nobody knows whether it was done.
      }
      this.total.retried += 1;
      await sleep(pauseMs);
    }
  }
}
