import { FitSession, MotionRecording } from '@studio/database';
import type { FootPitch, Motion } from '@studio/fit-math';
import { MoreThan, type EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export function sessionExists(tx: EntityManager, key: Key): Promise<boolean> {
  return tx.existsBy(FitSession, key);
}

export function insertMotionRecording(
  tx: EntityManager,
  row: Omit<MotionRecording, 'id' | 'createdAt'>,
): Promise<MotionRecording> {
  return tx.save(tx.create(MotionRecording, row));
}

export function findMotionRecording(tx: EntityManager, key: Key): Promise<MotionRecording | null> {
  return tx.findOneBy(MotionRecording, key);
}

export function listMotionRecordings(
  tx: EntityManager,
  page: { studioId: string; fitSessionId: string; after: string | null; limit: number },
): Promise<MotionRecording[]> {
  const { studioId, fitSessionId, after, limit } = page;
  return tx.find(MotionRecording, {
    where: { studioId, fitSessionId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}

/** How the foot was held in the session's newest recording of that leg; null where none was imported. */
export async function findFootPitch(
  tx: EntityManager,
  of: { studioId: string; fitSessionId: string; side: 'left' | 'right' },
): Promise<{ recordingId: string; footPitch: FootPitch } | null> {
  const recording = await tx.findOne(MotionRecording, { where: of, order: { id: 'DESC' } });
  return recording && { recordingId: recording.id, footPitch: (recording.result as Motion).footPitch };
}
