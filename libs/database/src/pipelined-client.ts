import pg from 'pg';

/** More texts than any app has of its own; what is put together at run time must not fill a server with plans. */
const mostNames = 1000;

const names = new Map<string, string>();

/** The name that a text is prepared under, on every connection; none once there are too many. */
export function statementName(text: string): string | undefined {
  const known = names.get(text);
  if (known !== undefined || names.size >= mostNames) return known;
  const name = `s${names.size}`;
  names.set(text, name);
  return name;
}

/** The forms of `query` that TypeORM and the pool use. */
type Query = (query: unknown, values?: unknown, callback?: unknown) => unknown;

/**
 * A connection that sends statements which do not wait for each other in one message: writing to sockets was the largest
 * part of what the API did for a booking.
 */
export class PipelinedClient extends pg.Client {
  private waiting = false;

  constructor(config?: pg.ClientConfig) {
    super({ ...config, pipeline: true });
  }

  override query: pg.Client['query'] = ((query: unknown, values?: unknown, callback?: unknown) => {
    this.sendOnceAllHaveSpoken();
    const send = pg.Client.prototype.query.bind(this) as Query;
    return send(this.asSent(query, values), values, callback);
  }) as pg.Client['query'];

  protected asSent(query: unknown, _values: unknown): unknown {
    return query;
  }

  /** What is said before everything that can go on has gone on is written at once. */
  private sendOnceAllHaveSpoken(): void {
    if (this.waiting) return;
    this.waiting = true;
    const { stream } = this.connection;
    stream.cork();
    process.nextTick(() => {
      this.waiting = false;
      stream.uncork();
    });
  }
}

/**
 * One that prepares each statement with parameters once besides: to parse and plan the statements of a booking anew took
 * PostgreSQL longer than to run them.
 */
export class PreparingClient extends PipelinedClient {
  protected override asSent(query: unknown, values: unknown): unknown {
    if (typeof query !== 'string' || !Array.isArray(values) || values.length === 0) return query;
    const name = statementName(query);
    return name === undefined ? query : { name, text: query };
  }
}
