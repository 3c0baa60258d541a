import type { SqlRunner } from '@studio/database';
import { randomUUID } from 'node:crypto';
import { deleteHeartbeat, putHeartbeat } from './heartbeat.queries.js';

const beatEveryMs = 10_000;

/** Says in PostgreSQL that this worker lives, for those who cannot ask it. */
export class Heartbeat {
  private readonly id = randomUUID();
  private timer: NodeJS.Timeout | undefined;

  constructor(private readonly sql: SqlRunner) {}

  start(): void {
    const beat = (): void => {
      // With PostgreSQL away nobody hears; the next beat may be heard.
      putHeartbeat(this.sql, this.id).catch(() => undefined);
    };
    this.timer = setInterval(beat, beatEveryMs);
    beat();
  }

  async stop(): Promise<void> {
    clearInterval(this.timer);
    await deleteHeartbeat(this.sql, this.id).catch(() => undefined);
  }
}
