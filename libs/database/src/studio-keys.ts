import { randomBytes } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import { StudioKey } from './entities/signing-in.js';
import { seal, SealBroken, unseal } from './field-seal.js';

/** Keys that wrap the studios' keys: the first wraps, the others still open what they wrapped before. */
export type MasterKeys = readonly { readonly id: string; readonly key: Buffer }[];

/** The studio's key was wrapped with a master key that is no longer given. */
export class MasterKeyMissing extends Error {
  override readonly name = 'MasterKeyMissing';

  constructor(readonly masterKeyId: string) {
    super(`no master key ${masterKeyId}`);
  }
}

const place = (studioId: string): string => `studio_keys.wrapped_key/${studioId}`;

/**
 * Seals fields of a studio with the studio's own key, which is drawn when first wanted and kept wrapped beside the
 * data. Destroying that one row makes every sealed field of the studio unreadable, in every backup too.
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
   */
  async unseal(tx: EntityManager, studioId: string, place: string, sealed: Buffer): Promise<Buffer> {
    return unseal(await this.keyOf(tx, studioId), place, sealed);
  }

  /** Wrap the studio's key with the newest master key; tells whether it was wrapped with another. */
  async rewrap(tx: EntityManager, studioId: string): Promise<boolean> {
    const newest = this.newest();
    const row = await tx.findOneBy(StudioKey, { studioId });
    if (row === null || row.masterKeyId === newest.id) return false;
    const wrappedKey = seal(newest.key, place(studioId), this.unwrap(row));
    await tx.update(StudioKey, { studioId, id: row.id }, { masterKeyId: newest.id, wrappedKey });
    return true;
  }

  private async keyOf(tx: EntityManager, studioId: string): Promise<Buffer> {
    const row = (await tx.findOneBy(StudioKey, { studioId })) ?? (await this.draw(tx, studioId));
    return this.unwrap(row);
  }

  /** Two who draw at once get the same: the unique key lets one in, and both read it. */
  private async draw(tx: EntityManager, studioId: string): Promise<StudioKey> {
    const { id: masterKeyId, key } = this.newest();
    const wrappedKey = seal(key, place(studioId), randomBytes(32));
    await tx
      .createQueryBuilder()
      .insert()
      .into(StudioKey)
      .values({ studioId, masterKeyId, wrappedKey })
      .orIgnore()
      .execute();
    return tx.findOneByOrFail(StudioKey, { studioId });
  }

  private unwrap(row: StudioKey): Buffer {
    const master = this.masterKeys.find(({ id }) => id === row.masterKeyId);
    if (!master) throw new MasterKeyMissing(row.masterKeyId);
    const key = unseal(master.key, place(row.studioId), row.wrappedKey);
    if (key.length !== 32) throw new SealBroken();
    return key;
  }

  private newest(): MasterKeys[number] {
    return this.masterKeys[0] as MasterKeys[number];
  }
}
