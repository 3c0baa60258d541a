import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import type { AuditSeal } from '../entities/audit-entry.js';
import { sha256 } from '../record-signatures/link.js';

/** What a seal says of itself; its hash is over this and the hash of the seal before. */
export type Sealed = Pick<AuditSeal, 'number' | 'month' | 'entriesHash' | 'letsGo'>;

export function hashOfSeal(seal: Sealed, previousHash: string | null): string {
  const { number, month, entriesHash, letsGo } = seal;
  const said =
    letsGo !== null
      ? `lets go ${letsGo}`
      : month === null
        ? // Sealed before seals kept to a month.
          String(entriesHash)
        : `${month} ${String(entriesHash)}`;
  return sha256(`${number} ${previousHash ?? ''} ${said}`);
}

/** SHA-256 over everything the entries of a seal say, in the order of their ids; and how many there are. */
export async function hashEntries(
  tx: EntityManager,
  { studioId, number, month }: Pick<AuditSeal, 'studioId' | 'number' | 'month'>,
): Promise<{ count: number; hash: string }> {
  await tx.query(`SELECT set_config('TimeZone', 'UTC', true)`);
  const rows: { said: string }[] = await tx.query(
    `SELECT jsonb_build_array(id, user_id, request_id, from_address, action, record_id, fields, before_hash, after_hash,
                              created_at)::text AS said
       FROM audit_entries
      WHERE studio_id = $1 AND sealed_in = $2
        AND ($3::date IS NULL
             OR created_at >= $3::date::timestamptz AND created_at < ($3::date + interval '1 month')::timestamptz)
      ORDER BY id`,
    [studioId, number, month],
  );
  const hash = createHash('sha256');
  for (const { said } of rows) hash.update(said).update('\n');
  return { count: rows.length, hash: hash.digest('hex') };
}
