import { In, IsNull, Not, type EntityManager } from 'typeorm';
import { RecordSignature } from '../entities/record-signature.js';
import { appendLink } from './sign-record.js';
import { canonical } from './link.js';

/** What an erasure signs: which links lost their content, and the hash of what it was. */
export interface SignedErasure {
  readonly erased: readonly { readonly number: number; readonly contentHash: string }[];
}

/**
 * Erase what the signatures of sessions say, and sign in the same chain that it was erased. Hashes and times stay: each
 * content held ids of rows that are gone, some seventy random bits in each, so no hash can be guessed back.
 */
export async function eraseSigned(
  tx: EntityManager,
  by: { studioId: string; fitSessionIds: readonly string[]; signedBy: string; signedAt: Date },
): Promise<void> {
  const { studioId, fitSessionIds, signedBy, signedAt } = by;
  const links = await tx.find(RecordSignature, {
    where: { studioId, fitSessionId: In([...fitSessionIds]), content: Not(IsNull()) },
    order: { number: 'ASC' },
  });
  if (links.length === 0) return;
  await tx.update(RecordSignature, { studioId, id: In(links.map(({ id }) => id)) }, { content: null });
  const erased = links.map(({ number, contentHash }) => ({ number, contentHash }));
  await appendLink(tx, {
    ...{ studioId, kind: 'erasure', fitSessionId: null, amendmentId: null, signedBy, signedAt },
    content: canonical({ erased } satisfies SignedErasure),
  });
}
