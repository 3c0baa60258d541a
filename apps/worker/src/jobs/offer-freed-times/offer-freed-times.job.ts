import { findOffer, findSlots, visitTime, type FreeSlot, type Offer } from '@studio/availability';
import {
  finishOrder,
  newSecret,
  offerFreedTime,
  openTask,
  orderMessage,
  postgresFailure,
  recordAudit,
  secretHash,
  sqlState,
  tenantToken,
  usualOfferMinutes,
  type TenantTransaction,
} from '@studio/database';
import { afterQuietHours } from '@studio/messages';
import type { EntityManager } from 'typeorm';
import type { JobHandler, Order } from '../../order.js';
import * as queries from './offer-freed-times.queries.js';
import { wishFits } from './wish-fits.js';

const minuteMs = 60_000;
/** A start every so many minutes is looked at; as the desk is shown them. */
const stepMinutes = 15;
/** How often a time may be snatched away between being found free and being held. */
const tries = 3;

/**
 * Goes through the waiting list from its head: whose wish fits a time that is free gets it offered. The time is held
 * for them until the offer runs out; then it goes to the next. Each wish is a transaction of its own, so a list that
 * was begun and not finished is gone through again.
 */
export class OfferFreedTimesJob implements JobHandler<'offer-freed-times'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly options: { publicUrl: string },
  ) {}

  async handle({ studioId, outboxId }: Order<'offer-freed-times'>, signal: AbortSignal): Promise<void> {
    await this.transaction.run({ studioId }, (tx) => endWhatIsOver(tx, studioId, outboxId));
    const waiting = await this.transaction.read({ studioId }, (sql) => queries.listWaiting(sql, studioId));
    for (const id of waiting) {
      signal.throwIfAborted();
      await this.offerTo({ studioId, id, outboxId });
    }
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }

  private async offerTo(wish: { studioId: string; id: string; outboxId: string }): Promise<void> {
    for (let attempt = 1; ; attempt += 1) {
      try {
        await this.transaction.run(wish, (tx) => offerOne(tx, wish, this.options.publicUrl));
        return;
      } catch (error) {
        const taken = postgresFailure(error)?.code === sqlState.exclusionViolation;
        if (!taken || attempt === tries) throw error;
      }
    }
  }
}

async function endWhatIsOver(tx: EntityManager, studioId: string, outboxId: string): Promise<void> {
  await queries.takeTurn(tx, studioId);
  for (const ended of await queries.listEnded(tx, studioId)) {
    const { id, clientId, appointmentId, ranOut } = ended;
    await queries.endOffer(tx, { studioId, id }, ended);
    if (ranOut) {
      await queries.lapse(tx, { studioId, id: appointmentId });
      await openTask(tx, { studioId, kind: 'offer_expired', role: 'front_desk', clientId, subjectId: id });
    }
    await recordAudit(tx, system(studioId, outboxId), {
      action: ranOut ? 'slot-offers.expire' : 'slot-offers.withdraw',
      recordId: id,
    });
  }
  await queries.endWishes(tx, studioId);
}

async function offerOne(
  tx: EntityManager,
  { studioId, id, outboxId }: { studioId: string; id: string; outboxId: string },
  publicUrl: string,
): Promise<void> {
  await queries.takeTurn(tx, studioId);
  const wish = await queries.findWaiting(tx, { studioId, id, usualMinutes: usualOfferMinutes });
  const offer = wish && (await findOffer(tx, { studioId, serviceId: wish.serviceId }));
  if (!offer || offer.retired) return;
  const slot = await firstFitting(tx, studioId, wish, offer);
  if (!slot) return;
  const expiresAt = runsOutAt(wish, slot);
  if (expiresAt === null) return;

  const [fitterId, roomId, benchId] = [slot.fitterIds[0], slot.roomIds[0], slot.benchIds[0] ?? null];
  if (fitterId === undefined || roomId === undefined) return;
  const visit = visitTime(offer);
  const start = Date.parse(slot.startsAt);
  await queries.lapseHoldsOf(tx, {
    ...{ studioId, fitterId, roomId, benchId },
    from: new Date(start - visit.bufferBeforeMs),
    to: new Date(start + visit.durationMs + visit.bufferAfterMs + visit.curingMs),
  });
  const { clientId, serviceId } = wish;
  const held = { studioId, clientId, serviceId, fitterId, roomId, benchId, until: expiresAt };
  const appointmentId = await queries.hold(tx, held, slot, offer);
  const secret = newSecret();
  const startsAt = new Date(slot.startsAt);
  const offerId = await queries.insertOffer(tx, {
    ...{ studioId, wishId: id, appointmentId, startsAt, expiresAt, linkHash: secretHash(secret) },
  });
  await orderMessage(tx, {
    ...{ studioId, clientId, template: 'waiting_list_offer', subjectId: offerId, expiresAt },
    data: {
      service: wish.serviceName,
      startsAt: startsAt.toISOString(),
      expiresAt: expiresAt.toISOString(),
      link: `${publicUrl}/offers/${tenantToken({ studioId, id: offerId, secret })}`,
    },
  });
  await offerFreedTime(tx, { studioId, at: expiresAt });
  await recordAudit(tx, system(studioId, outboxId), { action: 'slot-offers.make', recordId: offerId });
}

async function firstFitting(
  tx: EntityManager,
  studioId: string,
  wish: queries.WaitingWish,
  offer: Offer,
): Promise<FreeSlot | undefined> {
  const { fitterId, siteId, firstDay, lastDay } = wish;
  if (lastDay < firstDay) return undefined;
  const asked = { studioId, offer, fitterId, siteId, roomId: null, stepMinutes, firstDay, lastDay };
  const before = new Set(wish.offered.map((start) => start.getTime()));
  return (await findSlots(tx, asked)).find(
    (slot) => wishFits(slot, wish) && !before.has(Date.parse(slot.startsAt)),
  );
}

/** Counted from when the client may be written to; null when the visit would begin before they could answer. */
function runsOutAt(wish: queries.WaitingWish, slot: FreeSlot): Date | null {
  const { quietFrom: from, quietUntil: until, timeZone, now, offerMinutes } = wish;
  const quiet = from === null || until === null ? null : { from, until };
  const told = afterQuietHours(now, quiet, timeZone).getTime();
  const latest = Date.parse(slot.startsAt);
  if (told + minuteMs >= latest) return null;
  return new Date(Math.min(told + offerMinutes * minuteMs, latest));
}

const system = (studioId: string, outboxId: string) => ({
  ...{ studioId, userId: null, roles: [], requestId: outboxId },
});
