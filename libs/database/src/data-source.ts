import { DataSource } from 'typeorm';
import * as entityModule from './entities/index.js';
import { migrations } from './migrations/index.js';

export const entities = Object.values(entityModule).filter((item) => typeof item === 'function');

/** A connection pool that knows the entities. Migrations run only through `migrate`. */
export function createDataSource(options: {
  url: string;
  poolSize: number;
  applicationName: string;
}): DataSource {
  return new DataSource({
    type: 'postgres',
    url: options.url,
    applicationName: options.applicationName,
    poolSize: options.poolSize,
    entities,
    migrations,
    // Row-level security depends on transactions; nothing may run a query outside one by loading relations.
    relationLoadStrategy: 'join',
    logging: false,
  });
}
