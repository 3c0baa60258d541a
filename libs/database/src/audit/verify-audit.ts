import type { EntityManager } from 'typeorm';
import { AuditSeal } from '../entities/audit-entry.js';
import { hashEntries, hashOfSeal } from './seal-hash.js';

export interface AuditVerification {
  readonly seals: number;
  readonly entries: number;
  /** Entries written since the newest seal: nothing guards them yet. */
  readonly unsealed: number;
  /** Months whose entries were kept long enough and may be gone, by their first days. */
  readonly letGo: readonly string[];
  readonly head: { readonly number: number; readonly hash: string } | null;
  /** Numbers of seals that do not fit their entries, or the seal before. */
  readonly broken: readonly number[];
}

/** Check a studio's whole chain: every seal against the one before it, and against the entries it covers. */
export async function verifyAudit(tx: EntityManager, studioId: string): Promise<AuditVerification> {
  const seals = await tx.find(AuditSeal, { where: { studioId }, order: { number: 'ASC' } });
  const letGo = seals.flatMap((seal) => seal.letsGo ?? []);
  const broken: number[] = [];
  let before: AuditSeal | null = null;
  let entries = 0;
  for (const seal of seals) {
    const entriesHash = await hashOfWhatStands(tx, seal, letGo);
    const { number, month, letsGo } = seal;
    const hash = hashOfSeal({ number, month, letsGo, entriesHash }, before?.hash ?? null);
    if (number !== (before?.number ?? 0) + 1 || seal.hash !== hash) broken.push(number);
    before = seal;
    entries += seal.entries;
  }
  const [{ unsealed }] = await tx.query<[{ unsealed: number }]>(
    `SELECT count(*)::int AS unsealed FROM audit_entries WHERE studio_id = $1 AND sealed_in IS NULL`,
    [studioId],
  );
  return {
    seals: seals.length,
    entries,
    unsealed,
    letGo,
    head: before && { number: before.number, hash: before.hash },
    broken,
  };
}

/** Of a month that was let go of, all entries are there or none is: then the hash that was sealed stands for them. */
async function hashOfWhatStands(
  tx: EntityManager,
  seal: AuditSeal,
  letGo: readonly string[],
): Promise<string | null> {
  if (seal.letsGo !== null) return null;
  const { count, hash } = await hashEntries(tx, seal);
  const gone = count === 0 && seal.month !== null && letGo.includes(seal.month);
  return gone ? seal.entriesHash : hash;
}
