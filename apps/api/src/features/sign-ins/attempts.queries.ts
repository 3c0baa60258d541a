import { SignInAttempt } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { holdOffRules, type Filled } from './hold-off.js';

export interface Attempt {
  readonly studioId: string;
  readonly accountHash: Buffer;
  readonly fromAddress: string;
}

/** Written as failed before the password is looked at, so that guesses made at once are counted too. */
export async function insertAttempt(tx: EntityManager, attempt: Attempt): Promise<string> {
  const { identifiers } = await tx.insert(SignInAttempt, attempt);
  return (identifiers[0] as { id: string }).id;
}

export async function markAttempt(
  tx: EntityManager,
  { studioId, id }: { studioId: string; id: string },
  result: 'succeeded' | 'held_off',
): Promise<void> {
  await tx.update(SignInAttempt, { studioId, id }, { result });
}

/** Which rules the failures before this attempt fill, and whether the account signed in from the address in 90 days. */
export async function findFilled(tx: EntityManager, attempt: Attempt & { id: string }): Promise<Filled> {
  const { here, account, address } = holdOffRules;
  const rows: Filled[] = await tx.query(
    `WITH mine AS (
       SELECT max(created_at) AS at FROM sign_in_attempts
        WHERE studio_id = $1 AND account_hash = $2 AND from_address = $3 AND result = 'succeeded'
          AND created_at > app_now() - interval '90 days'
     ), failed AS (
       SELECT account_hash, from_address, created_at FROM sign_in_attempts
        WHERE studio_id = $1 AND result = 'failed' AND id <> $4 AND created_at > app_now() - interval '60 minutes'
          AND (account_hash = $2 OR from_address = $3)
     )
     SELECT (SELECT at FROM mine) IS NOT NULL AS known,
            (SELECT created_at FROM failed
              WHERE account_hash = $2 AND from_address = $3
                AND created_at > coalesce((SELECT at FROM mine), '-infinity')
              ORDER BY created_at DESC OFFSET $5 LIMIT 1) AS here,
            (SELECT created_at FROM failed WHERE account_hash = $2
              ORDER BY created_at DESC OFFSET $6 LIMIT 1) AS account,
            (SELECT created_at FROM failed WHERE from_address = $3
              ORDER BY created_at DESC OFFSET $7 LIMIT 1) AS address`,
    [
      attempt.studioId,
      attempt.accountHash,
      attempt.fromAddress,
      attempt.id,
      here.failures - 1,
      account.failures - 1,
      address.failures - 1,
    ],
  );
  return rows[0] as Filled;
}
