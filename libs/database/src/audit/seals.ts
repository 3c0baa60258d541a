import type { EntityManager } from 'typeorm';
import { AuditSeal } from '../entities/audit-entry.js';
import { hashEntries, hashOfSeal, type Sealed } from './seal-hash.js';

/** Entries a seal covers at most: what is hashed at once. */
const atATime = 5_000;

/**
 * Seal a studio's entries that no seal covers yet, however late their transactions committed: a link of a chain over what
 * they say, of one month's at a time. Sealed by one worker at a time; recording is never made to wait.
 *
 * @returns how many entries were sealed
 */
export async function sealAuditEntries(tx: EntityManager, studioId: string): Promise<number> {
  const before = await lockChain(tx, studioId);
  const number = (before?.number ?? 0) + 1;
  const sealed: { month: string }[] = await tx
    .query(
      `WITH oldest AS (
       SELECT date_trunc('month', min(created_at), 'UTC') AS first
         FROM audit_entries WHERE studio_id = $1 AND sealed_in IS NULL
     ), next AS (
       SELECT id, created_at FROM audit_entries, oldest
        WHERE studio_id = $1 AND sealed_in IS NULL
          AND created_at >= first AND created_at < date_add(first, '1 month', 'UTC')
        ORDER BY id LIMIT $3
     )
     UPDATE audit_entries a SET sealed_in = $2 FROM next
      WHERE a.studio_id = $1 AND a.id = next.id AND a.created_at = next.created_at
      RETURNING to_char(a.created_at AT TIME ZONE 'UTC', 'YYYY-MM-01') AS month`,
      [studioId, number, atATime],
    )
    .then(([rows]: [{ month: string }[], number]) => rows);
  const [first] = sealed;
  if (first === undefined) return 0;
  const { month } = first;
  const { hash: entriesHash } = await hashEntries(tx, { studioId, number, month });
  await append(tx, before, { studioId, month, entriesHash, letsGo: null, entries: sealed.length });
  return sealed.length;
}

/**
 * Say in the studio's chain which months of sealed entries need not be there any more, so that it stands without them.
 *
 * @param before months that ended by this day are let go of, like 2026-03-02
 */
export async function letAuditMonthsGo(
  tx: EntityManager,
  { studioId, before }: { studioId: string; before: string },
): Promise<void> {
  let last = await lockChain(tx, studioId);
  const months: { month: string }[] = await tx.query(
    `SELECT DISTINCT to_char(s.month, 'YYYY-MM-DD') AS month FROM audit_seals s
      WHERE s.studio_id = $1 AND s.month + interval '1 month' <= $2::date
        AND NOT EXISTS (SELECT FROM audit_seals l WHERE l.studio_id = $1 AND l.lets_go = s.month)
        AND NOT EXISTS (SELECT FROM audit_entries e
                         WHERE e.studio_id = $1 AND e.sealed_in IS NULL AND e.created_at < $2::date)
      ORDER BY 1`,
    [studioId, before],
  );
  for (const { month: letsGo } of months) {
    last = await append(tx, last, { studioId, month: null, entriesHash: null, letsGo, entries: 0 });
  }
}

/** Make the partitions of the months to come, and of those whose entries were taken by the one for all others. */
export async function prepareAuditMonths(tx: EntityManager, ahead: number): Promise<void> {
  await tx.query('SELECT audit_prepare_months($1)', [ahead]);
}

/** Drop the months before a day that every studio's chain has let go of. The database keeps a year, whatever the day. */
export async function dropAuditMonths(tx: EntityManager, before: string): Promise<number> {
  const [{ dropped }] = await tx.query<[{ dropped: number }]>('SELECT audit_drop_months($1) AS dropped', [
    before,
  ]);
  return dropped;
}

async function lockChain(tx: EntityManager, studioId: string): Promise<AuditSeal | null> {
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('audit_seals/' || $1, 0))`, [studioId]);
  return tx.findOne(AuditSeal, { where: { studioId }, order: { number: 'DESC' } });
}

async function append(
  tx: EntityManager,
  before: AuditSeal | null,
  sealed: Omit<Sealed, 'number'> & { studioId: string; entries: number },
): Promise<AuditSeal> {
  const number = (before?.number ?? 0) + 1;
  const previousHash = before?.hash ?? null;
  const hash = hashOfSeal({ ...sealed, number }, previousHash);
  return tx.save(tx.create(AuditSeal, { ...sealed, number, previousHash, hash }));
}
