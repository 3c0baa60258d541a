import { masterKeysOf } from '@studio/config';
import { createDataSource, StudioKeys, TenantReads, TenantTransaction } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { TestDatabase } from './database.js';
import { masterKeys } from './master-keys.js';

export const testKeys = (): StudioKeys => new StudioKeys(masterKeysOf({ MASTER_KEYS: masterKeys }) ?? []);

/** Work as the app does it for a studio, with its key at hand. */
export async function asStudio<T>(
  { apiUrl: url }: Pick<TestDatabase, 'apiUrl'>,
  studioId: string,
  work: (tx: EntityManager) => Promise<T>,
): Promise<T> {
  const pool = { url, poolSize: 1, applicationName: 'test' };
  const dataSource = await createDataSource(pool).initialize();
  const reads = new TenantReads(pool);
  try {
    return await new TenantTransaction(dataSource, reads, testKeys()).run({ studioId }, work);
  } finally {
    await reads.close();
    await dataSource.destroy();
  }
}
