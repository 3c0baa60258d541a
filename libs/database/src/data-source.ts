import { isTracing } from '@studio/tracing';
import { DataSource } from 'typeorm';
import * as entityModule from './entities/index.js';
import { migrations } from './migrations/index.js';
import { PipelinedClient, PreparingClient } from './pipelined-client.js';
import { SqlSpans } from './sql-spans.js';

export const entities = Object.values(entityModule).filter((item) => typeof item === 'function');

/** A connection pool that knows the entities. Migrations run only through `migrate`. */
export function createDataSource(options: {
  url: string;
  poolSize: number;
  applicationName: string;
  /** Settings of every connection, as PostgreSQL's own command line has them. */
  serverOptions?: string;
  /** Behind a pooler that hands connections on after each transaction: nothing is prepared. */
  pooled?: boolean;
  migrations?: typeof migrations;
}): DataSource {
  return new DataSource({
    type: 'postgres',
    url: options.url,
    applicationName: options.applicationName,
    poolSize: options.poolSize,
    entities,
    migrations: options.migrations ?? migrations,
    ...(isTracing() && { subscribers: [SqlSpans] }),
    extra: {
      Client: options.pooled === true ? PipelinedClient : PreparingClient,
      ...(options.serverOptions !== undefined && { options: options.serverOptions }),
    },
    // Row-level security depends on transactions; nothing may run a query outside one by loading relations.
    relationLoadStrategy: 'join',
    logging: false,
  });
}
