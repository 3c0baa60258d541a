import { RecoveryCode, SecondFactor } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { Person } from './person.js';

export function findSecondFactor(tx: EntityManager, person: Person): Promise<SecondFactor | null> {
  return tx.findOneBy(SecondFactor, { ...person });
}

export async function replaceSecondFactor(
  tx: EntityManager,
  person: Person,
  sealedSecret: Buffer,
): Promise<void> {
  await tx.upsert(SecondFactor, { ...person, sealedSecret, confirmedAt: null, lastStep: null }, [
    'studioId',
    'userId',
  ]);
}

export async function confirmSecondFactor(tx: EntityManager, person: Person): Promise<void> {
  await tx.update(SecondFactor, { ...person }, { confirmedAt: () => 'app_now()' });
}

/** Takes a code's step unless it or a later one was taken: of two who send the same code one gets in. */
export async function takeStep(tx: EntityManager, person: Person, step: number): Promise<boolean> {
  const { affected } = await tx
    .createQueryBuilder()
    .update(SecondFactor)
    .set({ lastStep: String(step) })
    .where('studio_id = :studioId AND user_id = :userId AND (last_step IS NULL OR last_step < :step)', {
      ...person,
      step,
    })
    .execute();
  return affected === 1;
}

export async function replaceRecoveryCodes(
  tx: EntityManager,
  person: Person,
  hashes: readonly Buffer[],
): Promise<void> {
  await tx.delete(RecoveryCode, { ...person });
  await tx.insert(
    RecoveryCode,
    hashes.map((codeHash) => ({ ...person, codeHash })),
  );
}

export async function useRecoveryCode(tx: EntityManager, person: Person, codeHash: Buffer): Promise<boolean> {
  const { affected } = await tx.update(
    RecoveryCode,
    { ...person, codeHash, usedAt: IsNull() },
    { usedAt: () => 'app_now()' },
  );
  return affected === 1;
}

export function countRecoveryCodes(tx: EntityManager, person: Person): Promise<number> {
  return tx.countBy(RecoveryCode, { ...person, usedAt: IsNull() });
}

export async function deleteSecondFactor(tx: EntityManager, person: Person): Promise<void> {
  await tx.delete(SecondFactor, { ...person });
  await tx.delete(RecoveryCode, { ...person });
}
