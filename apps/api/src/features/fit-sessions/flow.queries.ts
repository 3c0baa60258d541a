import { FitSession, StageSpan, utcText, type VisitStage } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { PlaceResponse, SpanResponse } from './flow.dto.js';

/** Property of the answer to its column, of the table as `p`. */
export const spanColumns: Readonly<Record<keyof SpanResponse, string>> = {
  id: 'p.id',
  stage: 'p.stage',
  startedAt: utcText('p.started_at'),
  stoppedAt: utcText('p.stopped_at'),
};

export async function putPlace(
  tx: EntityManager,
  key: { studioId: string; id: string },
  place: PlaceResponse & { deviceId: string | null },
): Promise<void> {
  await tx.update(FitSession, key, {
    placeStage: place.stage,
    placeNote: place.note,
    placeVersion: place.version,
    placeDeviceId: place.deviceId,
  });
}

export function findRunningSpan(
  tx: EntityManager,
  of: { studioId: string; fitSessionId: string; stage: VisitStage },
): Promise<StageSpan | null> {
  return tx.findOneBy(StageSpan, { ...of, stoppedAt: IsNull() });
}

export async function insertSpan(
  tx: EntityManager,
  row: Pick<StageSpan, 'studioId' | 'id' | 'fitSessionId' | 'stage' | 'startedAt' | 'startedBy'>,
): Promise<void> {
  await tx.insert(StageSpan, row);
}

export async function stopSpan(
  tx: EntityManager,
  key: { studioId: string; id: string },
  stop: { stoppedAt: Date; stoppedBy: string },
): Promise<void> {
  await tx.update(StageSpan, key, stop);
}
