import type { DataSource } from 'typeorm';
import type { StudioKeys } from '../studio-keys.js';
import type { TenantReads } from '../tenant-reads.js';
import { NoKeyYet, studioScope, type KeyAtHand } from './studio-scope.js';

/** So long a key is used on without asking whether it was destroyed. */
const heldForMs = 60_000;

/** Studios' keys, unwrapped and at hand; or that there is none, which the first that wants one asks again. */
export class KeyRing {
  private readonly held = new Map<string, { readonly key: KeyAtHand; readonly until: number }>();

  constructor(
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
    private readonly keys: StudioKeys,
  ) {}

  /** Do the studio's work with its key at hand: again from its begin, if a first key had to be drawn for it. */
  async within<T>(studioId: string, work: () => Promise<T>): Promise<T> {
    const held = this.held.get(studioId);
    const key = held !== undefined && held.until > performance.now() ? held.key : await this.find(studioId);
    try {
      return await studioScope.run({ studioId, key }, work);
    } catch (error) {
      if (!(error instanceof NoKeyYet)) throw error;
      // In a transaction of its own: what is sealed with it may be committed before anything else is.
      if (error.toSeal) await this.draw(studioId);
      return studioScope.run({ studioId, key: await this.find(studioId) }, work);
    }
  }

  private async find(studioId: string): Promise<KeyAtHand> {
    const key = await this.reads.run(studioId, (sql) => this.keys.find(sql, studioId));
    this.held.set(studioId, { key, until: performance.now() + heldForMs });
    return key;
  }

  private async draw(studioId: string): Promise<void> {
    await this.dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
      await this.keys.draw(tx, studioId);
    });
  }
}
