import type { Logger } from 'pino';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import type { Metrics } from '../metrics/metrics.js';
import type { Queues } from '../queues.js';
import { handingOver } from './handing-over.js';
import { claimDue, markRelayed, takeBack } from './outbox.queries.js';

const batch = 500;
const sweepMs = 1_000;
/** Orders that end together make room together. */
const gatherMs = 20;
const reconnectMs = 1_000;

/**
 * Hands outbox rows to the queues. Woken by PostgreSQL's NOTIFY, and sweeping every second besides, since time passing
 * notifies nobody. Any number of relays may run.
 */
export class OutboxRelay {
  private stopping = false;
  private listener: pg.Client | undefined;
  private sweep: NodeJS.Timeout | undefined;
  private gathering: NodeJS.Timeout | undefined;
  private running: Promise<void> | undefined;
  private again = false;
  private lookForLost = true;

  constructor(
    private readonly dataSource: DataSource,
    private readonly queues: Queues,
    private readonly log: Logger,
    private readonly metrics: Metrics,
    private readonly options: { listenUrl: string | null; handAgainAfterSeconds: number },
  ) {}

  start(): void {
    if (this.options.listenUrl !== null) void this.listen(this.options.listenUrl);
    this.sweep = setInterval(() => {
      this.lookForLost = true;
      this.wake();
    }, sweepMs);
    this.wake();
  }

  /** An order is off a queue: another of its studio may follow. */
  settled(): void {
    this.gathering ??= setTimeout(() => {
      this.gathering = undefined;
      this.wake();
    }, gatherMs);
  }

  async stop(): Promise<void> {
    this.stopping = true;
    clearInterval(this.sweep);
    clearTimeout(this.gathering);
    await this.listener?.end().catch(() => undefined);
    await this.running;
  }

  /** Start a round unless one runs; then one more follows it. */
  private wake(): void {
    if (this.stopping) return;
    if (this.running) {
      this.again = true;
      return;
    }
    this.running = this.drain()
      .catch((error: unknown) => {
        // PostgreSQL or Redis is away; the next sweep tries again.
        this.log.warn({ reason: nameOf(error) }, 'outbox round failed');
      })
      .finally(() => {
        this.running = undefined;
        if (this.again) {
          this.again = false;
          this.wake();
        }
      });
  }

  private async drain(): Promise<void> {
    if (this.lookForLost) {
      this.lookForLost = false;
      await this.dataSource.transaction((tx) => takeBack(tx, this.options.handAgainAfterSeconds));
    }
    let handed: number;
    do {
      handed = await this.dataSource.transaction(async (tx) => {
        const rows = await claimDue(tx, batch);
        if (rows.length === 0) return 0;
        // Queue first: if the commit fails the row comes again and the queue knows its id.
        await handingOver(rows, (traced) => this.queues.add(traced));
        await markRelayed(tx, rows);
        this.metrics.handed(rows);
        return rows.length;
      });
    } while (handed === batch && !this.stopping);
  }

  private async listen(connectionString: string): Promise<void> {
    while (!this.stopping) {
      const client = new pg.Client({ connectionString, application_name: 'studio-relay' });
      try {
        const lost = new Promise<void>((resolve) => {
          client.on('error', () => {
            resolve();
          });
          client.on('end', () => {
            resolve();
          });
        });
        client.on('notification', () => {
          this.wake();
        });
        await client.connect();
        await client.query('LISTEN outbox');
        this.listener = client;
        await lost;
      } catch (error) {
        this.log.warn({ reason: nameOf(error) }, 'cannot listen to the outbox');
      }
      await client.end().catch(() => undefined);
      // `stop` may have been called while waiting, which the compiler cannot know.
      // oxlint-disable-next-line typescript/no-unnecessary-condition
      if (!this.stopping) await new Promise((resolve) => setTimeout(resolve, reconnectMs));
    }
  }
}

const nameOf = (error: unknown): string => (error instanceof Error ? error.name : typeof error);
