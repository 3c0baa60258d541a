import { orderJob, readClock } from '@studio/database';
import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { deleteFile, newFileId } from './files.queries.js';

/** An upload that is not finished by then never will be. */
const unfinishedAfterMs = 60 * 60_000;

/**
 * The id of a file that is about to be put into the storage, in a transaction of its own before it: should its row
 * never come to be, nobody else would know of the bytes.
 */
export async function announceFile(tx: EntityManager, studioId: string): Promise<string> {
  const fileId = await newFileId(tx);
  const availableAt = new Date((await readClock(tx)).getTime() + unfinishedAfterMs);
  await orderJob(tx, { studioId, job: 'remove-file', payload: { fileId }, availableAt });
  return fileId;
}

/** Delete a file's row; its bytes go after it. */
export async function discardFile(tx: EntityManager, key: { studioId: string; id: string }): Promise<void> {
  await deleteFile(tx, key);
  await orderJob(tx, { studioId: key.studioId, job: 'remove-file', payload: { fileId: key.id } });
}

export const sha256Of = (content: Buffer): string => createHash('sha256').update(content).digest('hex');
