import { randomBytes } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { StudioKey } from './entities/signing-in.js';
import { seal, SealBroken, unseal } from './field-seal.js';
import type { KeyAtHand } from './sealed-fields/studio-scope.js';
import type { SqlRunner } from './sql-runner.js';

/** Keys that wrap the studios' keys: the first wraps, the others still open what they wrapped before. */
export type MasterKeys = readonly { readonly id: string; readonly key: Buffer }[];

/** The studio's key was wrapped with a master key that is no longer given. */
export class MasterKeyMissing extends Error {
  override readonly name = 'MasterKeyMissing';

  constructor(readonly masterKeyId: string) {
    super(`no master key ${masterKeyId}`);
  }
}

/** The studio's key was destroyed: what it sealed is gone, and nothing more is sealed. */
export class StudioKeyDestroyed extends Error {
  override readonly name = 'StudioKeyDestroyed';
}

const place = (studioId: string): string => `studio_keys.wrapped_key/${studioId}`;

type Row = Pick<StudioKey, 'masterKeyId' | 'wrappedKey'>;

/**
 * The studios' own keys, each drawn when first wanted and kept wrapped beside the data. Destroying one makes every sealed
 * field of the studio unreadable; in backups made before, once the master key that wrapped it there is gone too.
 */
export class StudioKeys {
  constructor(private readonly masterKeys: MasterKeys) {
    if (masterKeys.length === 0) throw new Error('there is no master key');
  }

  /** @param place table, column and row of the value, such as `second_factors.sealed_secret/<id>` */
  async seal(tx: EntityManager, studioId: string, place: string, plain: Buffer): Promise<Buffer> {
    return seal(await this.keyOf(tx, studioId), place, plain);
  }

  /**
   * @throws SealBroken when the value was altered or stood elsewhere
   * @throws MasterKeyMissing
   * @throws StudioKeyDestroyed
   */
  async unseal(tx: EntityManager, studioId: string, place: string, sealed: Buffer): Promise<Buffer> {
    return unseal(await this.keyOf(tx, studioId), place, sealed);
  }

  /** The studio's key, or why there is none. */
  async find(sql: SqlRunner, studioId: string): Promise<KeyAtHand> {
    const [row] = await sql.query<Row[]>(
      `SELECT master_key_id AS "masterKeyId", wrapped_key AS "wrappedKey" FROM studio_keys WHERE studio_id = $1`,
      [studioId],
    );
    if (row === undefined) return null;
    try {
      return this.unwrap(studioId, row);
    } catch (error) {
      return error as Error;
    }
  }

  /** Two who draw at once get the same: the unique key lets one in, and both read it. */
  async draw(tx: EntityManager, studioId: string): Promise<void> {
    const { id: masterKeyId, key } = this.newest();
    const wrappedKey = seal(key, place(studioId), randomBytes(32));
    await insertOnce(tx, { studioId, masterKeyId, wrappedKey });
  }

  /** Wrap the studio's key with the newest master key; tells whether it was wrapped with another. */
  async rewrap(tx: EntityManager, studioId: string): Promise<boolean> {
    const newest = this.newest();
    const row = await tx.findOneBy(StudioKey, { studioId });
    if (row === null || row.wrappedKey === null || row.masterKeyId === newest.id) return false;
    const wrappedKey = seal(newest.key, place(studioId), this.unwrap(studioId, row));
    await tx.update(StudioKey, { studioId, id: row.id }, { masterKeyId: newest.id, wrappedKey });
    return true;
  }

  private async keyOf(tx: EntityManager, studioId: string): Promise<Buffer> {
    let key = await this.find(tx, studioId);
    if (key === null) {
      await this.draw(tx, studioId);
      key = await this.find(tx, studioId);
    }
    if (!Buffer.isBuffer(key)) throw key ?? new SealBroken();
    return key;
  }

  private unwrap(studioId: string, { masterKeyId, wrappedKey }: Row): Buffer {
    if (wrappedKey === null) throw new StudioKeyDestroyed();
    const master = this.masterKeys.find(({ id }) => id === masterKeyId);
    if (!master) throw new MasterKeyMissing(masterKeyId);
    const key = unseal(master.key, place(studioId), wrappedKey);
    if (key.length !== 32) throw new SealBroken();
    return key;
  }

  private newest(): MasterKeys[number] {
    return this.masterKeys[0] as MasterKeys[number];
  }
}

/**
 * Destroy the studio's key, or see to it that none is ever drawn. Needs no master key. A process that has the key at hand
 * uses it for a minute more.
 *
 * @returns whether it had not been destroyed before
 */
export async function destroyStudioKey(tx: EntityManager, studioId: string): Promise<boolean> {
  await insertOnce(tx, { studioId, masterKeyId: 'none', wrappedKey: null });
  const { affected } = await tx
    .createQueryBuilder()
    .update(StudioKey)
    .set({ wrappedKey: null, destroyedAt: () => 'app_now()' })
    .where('studio_id = :studioId AND destroyed_at IS NULL', { studioId })
    .execute();
  return affected === 1;
}

async function insertOnce(
  tx: EntityManager,
  row: Pick<StudioKey, 'studioId' | 'masterKeyId' | 'wrappedKey'>,
): Promise<void> {
  await tx.createQueryBuilder().insert().into(StudioKey).values(row).orIgnore().execute();
}
