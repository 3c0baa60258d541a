import type { ConsentKind } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { ConsentMissing } from './clients.errors.js';
import { findClient, findStandingConsent } from './clients.queries.js';
import { found } from '../../http/problem.js';

/** @throws NotFound when the studio has no such client */
export async function requireClient(tx: EntityManager, studioId: string, clientId: string): Promise<void> {
  found(await findClient(tx, { studioId, id: clientId }));
}

/** @throws ConsentMissing unless the client's consent to `kind` stands */
export async function requireConsent(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  kind: ConsentKind,
): Promise<void> {
  if ((await findStandingConsent(tx, { ...key, kind })) === null) {
    throw new ConsentMissing(`Take the consent '${kind}' first.`, { consent: kind });
  }
}
