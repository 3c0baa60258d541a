import type { EntityManager } from 'typeorm';
import { found } from '../../http/problem.js';
import { GuardianMissing } from './clients.errors.js';
import { findClient, isMinor } from './clients.queries.js';

/**
 * Who consents for the client: null when the client does so alone.
 *
 * @throws NotFound when the studio has no such client
 * @throws GuardianMissing for a minor without a guardian
 */
export async function consentingGuardian(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
): Promise<string | null> {
  const client = { studioId: key.studioId, id: key.clientId };
  const { guardianId } = found(await findClient(tx, client));
  if (!(await isMinor(tx, client))) return null;
  if (guardianId === null) throw new GuardianMissing();
  return guardianId;
}
