import { Injectable } from '@nestjs/common';
import { dayOf, findOffer, findSlots, today, type Offer } from '@studio/availability';
import { TenantTransaction, type SqlRunner, type TenantContext } from '@studio/database';
import { InvalidRequest, UnknownReference } from '../../http/problem.js';
import type {
  FirstSlotsQuery,
  FirstSlotsResponse,
  ListSlotsQuery,
  SlotResponse,
  SlotsResponse,
  SlotWish,
} from './availability.dto.js';

const longestStretchDays = 31;
const dayMs = 86_400_000;

@Injectable()
export class AvailabilityService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, query: ListSlotsQuery): Promise<SlotsResponse> {
    const { firstDay, lastDay } = query;
    if (lastDay < firstDay || addDays(firstDay, longestStretchDays - 1) < lastDay) {
      throw new InvalidRequest([
        { field: 'lastDay', message: `must be within ${longestStretchDays} days from firstDay` },
      ]);
    }
    const slots = await this.transaction.read(ctx, async (sql) => {
      const offer = await offered(sql, ctx, query.serviceId);
      return offer.retired ? [] : findSlots(sql, { ...wishOf(ctx, query), offer, firstDay, lastDay });
    });
    const days = new Map<string, SlotResponse[]>();
    for (const slot of slots) days.set(dayOf(slot), [...(days.get(dayOf(slot)) ?? []), slot]);
    return {
      days: [...days].map(([day, ofDay]) => ({ day, slots: ofDay })).sort((a, b) => (a.day < b.day ? -1 : 1)),
    };
  }

  /** The first possible start, month by month for half a year. */
  async first(ctx: TenantContext, query: FirstSlotsQuery): Promise<FirstSlotsResponse> {
    return this.transaction.read(ctx, async (sql) => {
      const offer = await offered(sql, ctx, query.serviceId);
      const from = query.firstDay ?? today(offer.nowMs);
      for (let month = 0; month < 6 && !offer.retired; month += 1) {
        const firstDay = addDays(from, month * longestStretchDays);
        const lastDay = addDays(firstDay, longestStretchDays - 1);
        const slots = await findSlots(sql, { ...wishOf(ctx, query), offer, firstDay, lastDay });
        if (slots[0]) return { first: slots[0], byFitter: firstOfEach(slots) };
      }
      return { first: null, byFitter: [] };
    });
  }
}

async function offered(sql: SqlRunner, { studioId }: TenantContext, serviceId: string): Promise<Offer> {
  const offer = await findOffer(sql, { studioId, serviceId });
  if (!offer) throw new UnknownReference('serviceId');
  return offer;
}

function wishOf({ studioId }: TenantContext, query: SlotWish) {
  const { fitterId = null, roomId = null, siteId = null, stepMinutes = 15 } = query;
  return { studioId, fitterId, roomId, siteId, stepMinutes };
}

function firstOfEach(slots: readonly SlotResponse[]): FirstSlotsResponse['byFitter'] {
  const first = new Map<string, SlotResponse>();
  for (const slot of slots)
    for (const id of slot.fitterIds) if (!first.has(id)) first.set(id, { ...slot, fitterIds: [id] });
  return [...first].map(([fitterId, slot]) => ({ fitterId, slot }));
}

const addDays = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * dayMs).toISOString().slice(0, 10);
