import { recordAudit, type ConsentKind, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { ConsentMissing } from './clients.errors.js';
import { findClient, findStandingConsent, insertConsent } from './clients.queries.js';
import { consentingGuardian } from './consenting-guardian.js';
import { found } from '../../http/problem.js';

/** @throws NotFound when the studio has no such client */
export async function requireClient(tx: EntityManager, studioId: string, clientId: string): Promise<void> {
  found(await findClient(tx, { studioId, id: clientId }));
}

export async function consentStands(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  kind: ConsentKind,
): Promise<boolean> {
  return (await findStandingConsent(tx, { ...key, kind })) !== null;
}

/** Keep a consent that a client gave on a page of their own, with nobody of the studio beside them. */
export async function consentGivenByLink(
  tx: EntityManager,
  ctx: TenantContext,
  consent: { studioId: string; clientId: string; kind: ConsentKind; textVersion: string },
): Promise<void> {
  const guardianId = await consentingGuardian(tx, consent);
  await insertConsent(tx, { ...consent, guardianId, takenBy: null });
  await recordAudit(tx, ctx, {
    action: 'clients.consent',
    recordId: consent.clientId,
    fields: [consent.kind],
  });
}

/** @throws ConsentMissing unless the client's consent to `kind` stands */
export async function requireConsent(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  kind: ConsentKind,
): Promise<void> {
  if (!(await consentStands(tx, key, kind))) {
    throw new ConsentMissing(`Take the consent '${kind}' first.`, { consent: kind });
  }
}
