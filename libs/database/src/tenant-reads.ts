import { inSpan, isTracing } from '@studio/tracing';
import pg from 'pg';
import { statementName } from './pipelined-client.js';
import { sqlSpan } from './sql-spans.js';
import type { SqlRunner } from './sql-runner.js';

/** Returns no row, so the rows of the read are the only ones. Both settings end with the transaction. */
const setStudio = {
  name: 'set_studio',
  text: `SELECT WHERE set_config('app.studio_id', $1, true) || set_config('transaction_read_only', 'on', true) IS NULL`,
};

/**
 * Reads of one studio, each in a single message to the server: the studio's setting and the query go out together
 * and end with one sync, so PostgreSQL runs both in one implicit transaction and forgets the setting after it
 * (PostgreSQL 18 documentation, 54.2.4 "Pipelining"), which allows no writing. Tenancy costs no round trip. Queries
 * are prepared once per connection; not behind a pooler in transaction mode, where the next transaction may meet
 * another connection (PgBouncer keeps prepared statements only since 1.21, and only if it is told to).
 */
export class TenantReads {
  private readonly pool: pg.Pool;

  private readonly pooled: boolean;

  constructor(options: {
    url: string;
    poolSize: number;
    applicationName: string;
    pooled?: boolean;
    /** Without it a connection is waited for as long as the system tries. */
    connectWithinMs?: number;
  }) {
    this.pooled = options.pooled ?? false;
    this.pool = new pg.Pool({
      connectionString: options.url,
      max: options.poolSize,
      application_name: options.applicationName,
      connectionTimeoutMillis: options.connectWithinMs ?? 0,
      pipeline: true,
    });
    // An idle connection that breaks is replaced by the pool; without a listener it would end the process.
    this.pool.on('error', () => undefined);
    // One that breaks while it is read from fails the read; without a listener it would end the process as well.
    this.pool.on('connect', (client) => client.on('error', () => undefined));
    if (this.pooled) return;
    // Goes out before the connection's first read; if it fails, so do the reads.
    this.pool.on('connect', (client) => {
      client.query({ ...setStudio, values: [''] }).catch(() => undefined);
    });
  }

  /** Every query of `work` sees what is committed when it begins, as in any transaction at READ COMMITTED. */
  async run<T>(studioId: string, work: (sql: SqlRunner) => Promise<T>): Promise<T> {
    return work({
      query: <Rows>(text: string, values: unknown[] = []) => {
        const query = (): Promise<Rows> => this.query<Rows>(studioId, text, values);
        return isTracing() ? inSpan(sqlSpan(text), query) : query();
      },
    });
  }

  /** How many reads wait for a connection. */
  get waiting(): number {
    return this.pool.waitingCount;
  }

  async close(): Promise<void> {
    await this.pool.end();
  }

  private async query<Rows>(studioId: string, text: string, values: unknown[]): Promise<Rows> {
    const client = await this.pool.connect();
    try {
      return await new Promise<Rows>((resolve, reject) => {
        const read = new pg.Query(text, values, (error, result) => {
          if (error) reject(error);
          // One result per statement executed: the setting's, then the read's.
          else resolve((result as unknown as [unknown, { rows: Rows }])[1].rows);
        });
        // Without a name and without values it would go out as a query of another protocol. Set here, since the driver
        // copies what it is given by its descriptors, a thirtieth of a read.
        Object.assign(read, this.pooled ? { queryMode: 'extended' } : { name: statementName(text) });
        const submit = read.submit.bind(read);
        read.submit = (connection) => {
          connection.stream.cork();
          if (this.pooled) connection.parse({ name: '', text: setStudio.text, types: [] }, true);
          connection.bind({ statement: this.pooled ? '' : setStudio.name, values: [studioId] }, true);
          connection.execute({}, true);
          submit(connection);
          connection.stream.uncork();
        };
        client.query(read);
      });
    } finally {
      client.release();
    }
  }
}
