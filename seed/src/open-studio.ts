import { hash } from '@node-rs/argon2';
import { createDataSource, Studio, StudioHandle, User } from '@studio/database';

/** A studio as it is opened: its handle, its zone and the one person who can add the others. */
export interface FirstStudio {
  readonly studioId: string;
  readonly handle: string;
  readonly name: string;
  readonly timeZone: string;
  readonly owner: { readonly email: string; readonly displayName: string; readonly password: string };
}

/** Open a studio, once: with the same id again nothing changes. Runs as the schema's owner, under the studio's policy. */
export async function openStudio(ownerUrl: string, studio: FirstStudio): Promise<void> {
  const dataSource = createDataSource({ url: ownerUrl, poolSize: 1, applicationName: 'studio-seed' });
  await dataSource.initialize();
  try {
    const passwordHash = await hash(studio.owner.password);
    await dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studio.studioId]);
      if (await tx.existsBy(Studio, { id: studio.studioId })) return;
      await tx.insert(Studio, { id: studio.studioId, name: studio.name, timeZone: studio.timeZone });
      await tx.insert(StudioHandle, { handle: studio.handle, studioId: studio.studioId });
      await tx.insert(User, {
        studioId: studio.studioId,
        email: studio.owner.email,
        displayName: studio.owner.displayName,
        passwordHash,
        roles: ['owner', 'fitter'],
      });
    });
  } finally {
    await dataSource.destroy();
  }
}
