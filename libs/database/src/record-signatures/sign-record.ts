import type { EntityManager } from 'typeorm';
import { RecordSignature, type SignatureKind } from '../entities/record-signature.js';
import { readAmendments, readSessionContents } from './content.queries.js';
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
  const { studioId, fitSessionId, amendmentId } = signature;
  await lockChain(tx, studioId);
  const content = canonical(
    amendmentId === null
      ? (await readSessionContents(tx, { studioId, fitSessionIds: [fitSessionId] })).get(fitSessionId)
      : (await readAmendments(tx, { studioId, amendmentIds: [amendmentId] })).get(amendmentId),
  );
  return appendLink(tx, { ...signature, kind: amendmentId === null ? 'session' : 'amendment', content });
}

/** Until the transaction ends, whoever else wants to add to the chain waits. */
async function lockChain(tx: EntityManager, studioId: string): Promise<void> {
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('record_signatures/' || $1, 0))`, [studioId]);
}

export async function appendLink(
  tx: EntityManager,
  signed: {
    studioId: string;
    kind: SignatureKind;
    fitSessionId: string | null;
    amendmentId: string | null;
    content: string;
    signedBy: string;
    signedAt: Date;
  },
): Promise<RecordSignature> {
  const { studioId, content } = signed;
  await lockChain(tx, studioId);
  const before = await tx.findOne(RecordSignature, { where: { studioId }, order: { number: 'DESC' } });
  const link = {
    ...signed,
    number: (before?.number ?? 0) + 1,
    contentHash: sha256(content),
    previousHash: before?.hash ?? null,
  };
  return tx.save(tx.create(RecordSignature, { ...link, hash: hashOfLink(link) }));
}
