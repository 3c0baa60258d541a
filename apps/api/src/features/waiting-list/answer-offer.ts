import { cancelMessages, offerFreedTime, recordAudit, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { found } from '../../http/problem.js';
import type { AppointmentsService } from '../appointments/index.js';
import { requirePermission } from '../screenings/index.js';
import { OfferAnswered } from './waiting-list.errors.js';
import * as queries from './waiting-list.queries.js';

type Appointments = Pick<AppointmentsService, 'bookHeld' | 'releaseHeld'>;

/**
 * Answer an offer, once. Accepted, the time that was held is booked; declined, it is free for the next, and the client
 * waits for another.
 *
 * @throws NotFound
 * @throws OfferAnswered when it was answered before, ran out or was taken back
 * @throws NotPermitted when the client may not be booked any more; the offer stays open
 */
export async function answerOffer(
  tx: EntityManager,
  ctx: TenantContext,
  appointments: Appointments,
  { id, accepted }: { id: string; accepted: boolean },
): Promise<queries.OfferRecord> {
  const { studioId, userId: answeredBy } = ctx;
  const offer = found(await queries.lockOffer(tx, { studioId, id }));
  if (offer.state !== 'open') throw new OfferAnswered(offer.state);
  const { appointmentId, wishId } = offer;
  if (accepted) {
    const { clientId } = found(await queries.findWish(tx, { studioId, id: wishId }));
    await requirePermission(tx, { studioId, clientId }, 'booking');
    const isBooked = await appointments.bookHeld(tx, ctx, appointmentId);
    // Somebody moved it or called it off; the worker has not come to it yet.
    if (!isBooked) throw new OfferAnswered('withdrawn');
  } else {
    await appointments.releaseHeld(tx, ctx, appointmentId, 'The offer was declined.');
  }
  await queries.endOffer(tx, { studioId, id }, { state: accepted ? 'accepted' : 'declined', answeredBy });
  await queries.setWishState(tx, { studioId, id: wishId }, accepted ? 'booked' : 'waiting');
  await cancelMessages(tx, { studioId, subjectId: id, because: 'the offer was answered' });
  await offerFreedTime(tx, { studioId });
  await recordAudit(tx, ctx, { action: `slot-offers.${accepted ? 'accept' : 'decline'}`, recordId: id });
  return found(await queries.findOffer(tx, { studioId, id }));
}

/** The client does not wait any more: what is offered to them just now is free again. */
export async function withdrawOpenOffer(
  tx: EntityManager,
  ctx: TenantContext,
  appointments: Appointments,
  { wishId }: { wishId: string },
): Promise<void> {
  const { studioId } = ctx;
  const id = await queries.findOpenOffer(tx, { studioId, wishId });
  if (id === null) return;
  const { appointmentId } = found(await queries.lockOffer(tx, { studioId, id }));
  await appointments.releaseHeld(tx, ctx, appointmentId, 'The client does not wait any more.');
  await queries.endOffer(tx, { studioId, id }, { state: 'withdrawn' });
  await cancelMessages(tx, { studioId, subjectId: id, because: 'the wish was withdrawn' });
}
