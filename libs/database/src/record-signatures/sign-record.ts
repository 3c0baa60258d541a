import type { EntityManager } from 'typeorm';
import { RecordSignature } from '../entities/record-signature.js';
import { readAmendmentContent, readSessionContent } from './content.queries.js';
import { canonical, hashOfLink, sha256 } from './link.js';

/**
 * Add a signature to the studio's chain, in the transaction that makes the record final. Two who sign at once follow each
 * other.
 *
 * @param signature what is signed: a session with all its parts, or an amendment beside it
 */
export async function signRecord(
  tx: EntityManager,
  signature: {
    studioId: string;
    fitSessionId: string;
    /** Null for the session itself. */
    amendmentId: string | null;
    signedBy: string;
    signedAt: Date;
  },
): Promise<RecordSignature> {
  const { studioId, amendmentId } = signature;
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('record_signatures/' || $1, 0))`, [studioId]);
  const before = await tx.findOne(RecordSignature, { where: { studioId }, order: { number: 'DESC' } });
  const content = canonical(
    amendmentId === null
      ? await readSessionContent(tx, signature)
      : await readAmendmentContent(tx, { studioId, amendmentId }),
  );
  const link = {
    ...signature,
    number: (before?.number ?? 0) + 1,
    kind: amendmentId === null ? ('session' as const) : ('amendment' as const),
    contentHash: sha256(content),
    previousHash: before?.hash ?? null,
  };
  return tx.save(tx.create(RecordSignature, { ...link, content, hash: hashOfLink(link) }));
}
