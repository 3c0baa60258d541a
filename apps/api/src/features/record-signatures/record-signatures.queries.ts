import { FitSession, RecordSignature } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly fitSessionId: string;
}

export function sessionExists(tx: EntityManager, { studioId, fitSessionId }: Key): Promise<boolean> {
  return tx.existsBy(FitSession, { studioId, id: fitSessionId });
}

export function listSignatures(
  tx: EntityManager,
  key: Key,
): Promise<Omit<RecordSignature, 'content' | 'studioId'>[]> {
  return tx.find(RecordSignature, {
    select: {
      ...{ id: true, number: true, kind: true, amendmentId: true, signedBy: true, signedAt: true },
      ...{ contentHash: true, hash: true },
    },
    where: { ...key },
    order: { number: 'ASC' },
  });
}
