import {
  cancelMessages,
  recordAudit,
  type ConsentKind,
  type SqlRunner,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { ClientMerged, ClientRestricted, ConsentMissing, GuardianMissing } from './clients.errors.js';
import { findClient, insertConsent, isConsented, isMinor, withdrawConsent } from './clients.queries.js';
import { reconsiderFollowUps } from '../follow-ups/index.js';
import { found } from '../../http/problem.js';

export { CreateClientRequest } from './clients.dto.js';
export { consentingGuardian } from './consenting-guardian.js';
export { e164 } from './phone-number.js';

/**
 * Asked before anything is written for a client.
 *
 * @throws NotFound when the studio has no such client
 * @throws ClientMerged for a record that was merged into another one; it names that one
 * @throws ClientRestricted for a record that is only kept
 */
export async function requireClient(tx: EntityManager, studioId: string, clientId: string): Promise<void> {
  await requireOwnRecord(tx, studioId, clientId);
  await refuseClosed(tx, studioId, clientId);
}

/**
 * Asked before what a person may have done to a record that is only kept: corrected, or consent taken back.
 *
 * @throws NotFound, ClientMerged
 */
export async function requireOwnRecord(tx: EntityManager, studioId: string, clientId: string): Promise<void> {
  const { mergedInto } = found(await findClient(tx, { studioId, id: clientId }));
  if (mergedInto !== null) throw new ClientMerged(mergedInto);
}

/** @throws ClientMerged, ClientRestricted; a missing client is left to the foreign key */
export async function refuseClosed(sql: SqlRunner, studioId: string, clientId: string): Promise<void> {
  const client = await findClient(sql, { studioId, id: clientId });
  if (client?.mergedInto != null) throw new ClientMerged(client.mergedInto);
  if (client?.restrictedAt != null) throw new ClientRestricted();
}

/**
 * Asked before a client is read: a merged record leads to what belongs to the person.
 *
 * @throws NotFound when the studio has no such client
 */
export async function requireKnownClient(sql: SqlRunner, studioId: string, clientId: string): Promise<void> {
  found(await findClient(sql, { studioId, id: clientId }));
}

export function consentStands(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
  kind: ConsentKind,
): Promise<boolean> {
  return isConsented(tx, { ...key, kind });
}

/**
 * A minor cannot consent alone: before a link of the client's own goes out, a guardian has consented at the studio.
 *
 * @throws GuardianMissing
 */
export async function requireAbleToConsent(
  tx: EntityManager,
  { studioId, clientId }: { studioId: string; clientId: string },
  kind: ConsentKind,
): Promise<void> {
  if (!(await isMinor(tx, { studioId, id: clientId }))) return;
  if (!(await consentStands(tx, { studioId, clientId }, kind))) throw new GuardianMissing();
}

/**
 * Keep a consent that a client gave on a page of their own, with nobody of the studio beside them.
 *
 * @throws GuardianMissing for a minor
 */
export async function consentGivenByLink(
  tx: EntityManager,
  ctx: TenantContext,
  consent: { studioId: string; clientId: string; kind: ConsentKind; textVersion: string },
): Promise<void> {
  await requireAbleToConsent(tx, consent, consent.kind);
  await insertConsent(tx, { ...consent, takenBy: null, guardianId: null });
  await reconsiderFollowUps(tx, ctx, consent);
  await recordAudit(tx, ctx, {
    action: 'clients.consent',
    recordId: consent.clientId,
    fields: [consent.kind],
  });
}

/** A client takes a consent back by a link. Where it does not stand any more, nothing happens. */
export async function consentWithdrawnByLink(
  tx: EntityManager,
  ctx: TenantContext,
  { clientId, kind }: { clientId: string; kind: ConsentKind },
): Promise<void> {
  const { studioId } = ctx;
  if (!(await withdrawConsent(tx, { studioId, clientId, kind }, null))) return;
  if (kind === 'contact') await cancelMessages(tx, { studioId, clientId, because: 'consent withdrawn' });
  await reconsiderFollowUps(tx, ctx, { clientId });
  await recordAudit(tx, ctx, { action: 'clients.withdraw-consent', recordId: clientId, fields: [kind] });
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
