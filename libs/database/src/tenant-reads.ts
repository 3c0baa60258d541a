import pg from 'pg';
import type { SqlRunner } from './sql-runner.js';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/**
 * Read-only transactions over pipelined connections. BEGIN with the studio's setting, the query and COMMIT go out
 * without waiting for one another, so tenancy costs the server's work and no round trip; queries are prepared once
 * per connection.
 */
export class TenantReads {
  private readonly pool: pg.Pool;
  private readonly statementNames = new Map<string, string>();

  constructor(options: { url: string; poolSize: number; applicationName: string }) {
    this.pool = new pg.Pool({
      connectionString: options.url,
      max: options.poolSize,
      application_name: options.applicationName,
      pipeline: true,
    });
    // An idle connection that breaks is replaced by the pool; without a listener it would end the process.
    this.pool.on('error', () => undefined);
  }

  async run<T>(studioId: string, work: (sql: SqlRunner) => Promise<T>): Promise<T> {
    // Written into the statement, since SET takes no parameters: so it must be a UUID and nothing else.
    if (!uuid.test(studioId)) throw new TypeError('studioId must be a UUID');
    const client = await this.pool.connect();
    const begun = client.query(`BEGIN READ ONLY; SET LOCAL app.studio_id = '${studioId}'`);
    // Reported by the query that follows; this only keeps the rejection from going unhandled.
    begun.catch(() => undefined);
    try {
      return await work({
        query: async <Rows>(text: string, values: unknown[] = []) => {
          const { rows } = await client.query({ name: this.nameOf(text), text, values });
          return rows as Rows;
        },
      });
    } finally {
      // Nothing was written, so the answer need not wait for the end; the connection does.
      client.query('COMMIT').then(
        () => {
          client.release();
        },
        (error: unknown) => {
          client.release(error instanceof Error ? error : true);
        },
      );
    }
  }

  async close(): Promise<void> {
    await this.pool.end();
  }

  private nameOf(text: string): string {
    let name = this.statementNames.get(text);
    if (name === undefined) {
      name = `read_${this.statementNames.size}`;
      this.statementNames.set(text, name);
    }
    return name;
  }
}
