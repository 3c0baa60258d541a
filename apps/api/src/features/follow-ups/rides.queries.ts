import { RideRecordingRow, StoredFile } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface OfFollowUp {
  studioId: string;
  followUpId: string;
}

export type Ride = RideRecordingRow & Pick<StoredFile, 'fileName'>;

/** The recording sent with a follow-up, of which there is at most one. */
export async function findRide(tx: EntityManager, of: OfFollowUp): Promise<Ride | null> {
  const ride = await tx.findOneBy(RideRecordingRow, of);
  if (!ride) return null;
  const { fileName } = await tx.findOneByOrFail(StoredFile, { studioId: of.studioId, id: ride.fileId });
  return { ...ride, fileName };
}

export async function insertRide(
  tx: EntityManager,
  row: Omit<RideRecordingRow, 'id' | 'createdAt'>,
): Promise<void> {
  await tx.insert(RideRecordingRow, row);
}
