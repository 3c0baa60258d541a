import { FitSession, FitSheetRow } from '@studio/database';
import { MoreThan, type EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export function sessionExists(tx: EntityManager, key: Key): Promise<boolean> {
  return tx.existsBy(FitSession, key);
}

export async function insertFitSheet(
  tx: EntityManager,
  row: Pick<
    FitSheetRow,
    'studioId' | 'fitSessionId' | 'audience' | 'paper' | 'lengths' | 'language' | 'tellRider' | 'orderedBy'
  >,
): Promise<FitSheetRow> {
  return tx.save(tx.create(FitSheetRow, row));
}

export function findFitSheet(tx: EntityManager, key: Key): Promise<FitSheetRow | null> {
  return tx.findOneBy(FitSheetRow, key);
}

export function listFitSheets(
  tx: EntityManager,
  page: { studioId: string; fitSessionId: string; after: string | null; limit: number },
): Promise<FitSheetRow[]> {
  const { studioId, fitSessionId, after, limit } = page;
  return tx.find(FitSheetRow, {
    where: { studioId, fitSessionId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}
