import pg from 'pg';
import type { DataSource } from 'typeorm';

/** A statement that writes and returns no rows. */
export interface Write {
  readonly text: string;
  readonly values: readonly (string | null)[];
}

/** What TypeORM's driver for PostgreSQL is to us. */
interface Pool {
  obtainMasterConnection(): Promise<[client: pg.Client, release: () => void]>;
}

/** Without values it would go out as a query of another protocol, and its transaction would stay open. */
const extended = { queryMode: 'extended' };

/** Returns no row: only the last statement's result is described to the driver. */
const setStudio = (studioId: string): Write => ({
  text: `SELECT WHERE set_config('app.studio_id', $1, true) IS NULL`,
  values: [studioId],
});

/**
 * Writes of one studio in a single message to the server: the studio's setting and every statement go out together and
 * end with one sync, so PostgreSQL runs them in one implicit transaction, all or none (PostgreSQL 18 documentation,
 * 54.2.4 "Pipelining").
 */
export async function writeAtOnce(
  dataSource: DataSource,
  studioId: string,
  writes: readonly [...Write[], Write],
): Promise<void> {
  const [client, release] = await (dataSource.driver as unknown as Pool).obtainMasterConnection();
  try {
    await new Promise<void>((resolve, reject) => {
      const before = [setStudio(studioId), ...writes.slice(0, -1)];
      const { text, values } = writes.at(-1) as Write;
      const last = new pg.Query({ text, values: [...values], ...extended }, (error) => {
        if (error) reject(error);
        else resolve();
      });
      const submit = last.submit.bind(last);
      last.submit = (connection) => {
        connection.stream.cork();
        for (const write of before) {
          connection.parse({ name: '', text: write.text, types: [] }, true);
          connection.bind({ values: [...write.values] }, true);
          connection.execute({}, true);
        }
        submit(connection);
        connection.stream.uncork();
      };
      client.query(last);
    });
  } finally {
    release();
  }
}
