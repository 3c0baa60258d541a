import { masterKeysOf } from '@studio/config';
import { createDataSource, StudioKeys, TenantReads, TenantTransaction } from '@studio/database';
import type { DataSource, EntityManager } from 'typeorm';
import { pooled, type TestDatabase } from './database.js';
import { masterKeys } from './master-keys.js';

export const testKeys = (): StudioKeys => new StudioKeys(masterKeysOf({ MASTER_KEYS: masterKeys }) ?? []);

export interface Connected {
  readonly dataSource: DataSource;
  readonly transaction: TenantTransaction;
  readonly close: () => Promise<void>;
}

/** The way to a studio's records that an app has. */
export async function connect(url: string, poolSize = 4): Promise<Connected> {
  const pool = { url, poolSize, applicationName: 'test', pooled };
  const dataSource = await createDataSource(pool).initialize();
  const reads = new TenantReads(pool);
  return {
    dataSource,
    transaction: new TenantTransaction(dataSource, reads, testKeys()),
    close: async () => {
      await reads.close();
      await dataSource.destroy();
    },
  };
}

/** Work as the app does it for a studio, with its key at hand. */
export async function asStudio<T>(
  { apiUrl }: Pick<TestDatabase, 'apiUrl'>,
  studioId: string,
  work: (tx: EntityManager) => Promise<T>,
): Promise<T> {
  const { transaction, close } = await connect(apiUrl, 1);
  try {
    return await transaction.run({ studioId }, work);
  } finally {
    await close();
  }
}
