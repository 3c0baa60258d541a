import { StoredFile } from '@studio/database';
import type { EntityManager } from 'typeorm';

export function fileHasRow(
  tx: EntityManager,
  { studioId, fileId }: { studioId: string; fileId: string },
): Promise<boolean> {
  return tx.existsBy(StoredFile, { studioId, id: fileId });
}
