import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { AuditSeal } from '../entities/audit-entry.js';
import { sha256 } from '../record-signatures/link.js';

/** Entries a seal covers at most: what is hashed at once. */
const atATime = 5_000;

/**
 * Seal a studio's entries that no seal covers yet, however late their transactions committed: a link of a chain over what
 * they say. Sealed by one worker at a time; recording is never made to wait.
 *
 * @returns how many entries were sealed
 */
export async function sealAuditEntries(tx: EntityManager, studioId: string): Promise<number> {
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('audit_seals/' || $1, 0))`, [studioId]);
  const before = await tx.findOne(AuditSeal, { where: { studioId }, order: { number: 'DESC' } });
  const number = (before?.number ?? 0) + 1;
  const sealed: { id: string }[] = await tx
    .query(
      `WITH next AS (
       SELECT id FROM audit_entries WHERE studio_id = $1 AND sealed_in IS NULL ORDER BY id LIMIT $3
     )
     UPDATE audit_entries a SET sealed_in = $2 FROM next WHERE a.studio_id = $1 AND a.id = next.id RETURNING a.id`,
      [studioId, number, atATime],
    )
    .then(([rows]: [{ id: string }[], number]) => rows);
  if (sealed.length === 0) return 0;
  const previousHash = before?.hash ?? null;
  const hash = hashOfSeal(number, previousHash, await entriesHash(tx, studioId, number));
  await tx.insert(AuditSeal, { studioId, number, entries: sealed.length, previousHash, hash });
  return sealed.length;
}

export interface AuditVerification {
  readonly seals: number;
  readonly entries: number;
  /** Entries written since the newest seal: nothing guards them yet. */
  readonly unsealed: number;
  readonly head: { readonly number: number; readonly hash: string } | null;
  /** Numbers of seals that do not fit their entries, or the seal before. */
  readonly broken: readonly number[];
}

export async function verifyAudit(tx: EntityManager, studioId: string): Promise<AuditVerification> {
  const seals = await tx.find(AuditSeal, { where: { studioId }, order: { number: 'ASC' } });
  const broken: number[] = [];
  let before: AuditSeal | null = null;
  let entries = 0;
  for (const seal of seals) {
    const hash = hashOfSeal(seal.number, before?.hash ?? null, await entriesHash(tx, studioId, seal.number));
    if (seal.number !== (before?.number ?? 0) + 1 || seal.hash !== hash) broken.push(seal.number);
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
    head: before && { number: before.number, hash: before.hash },
    broken,
  };
}

const hashOfSeal = (number: number, previousHash: string | null, entries: string): string =>
  sha256(`${number} ${previousHash ?? ''} ${entries}`);

/** SHA-256 over everything the entries of a seal say, in the order of their ids. */
async function entriesHash(tx: EntityManager, studioId: string, number: number): Promise<string> {
  await tx.query(`SELECT set_config('TimeZone', 'UTC', true)`);
  const rows: { said: string }[] = await tx.query(
    `SELECT jsonb_build_array(id, user_id, request_id, from_address, action, record_id, fields, before_hash, after_hash,
                              created_at)::text AS said
       FROM audit_entries WHERE studio_id = $1 AND sealed_in = $2 ORDER BY id`,
    [studioId, number],
  );
  const hash = createHash('sha256');
  for (const { said } of rows) hash.update(said).update('\n');
  return hash.digest('hex');
}
