import { Injectable } from '@nestjs/common';
import {
  hashesEqual,
  readTenantToken,
  secretHash,
  TenantTransaction,
  type SqlRunner,
  type TenantContext,
  type TenantToken,
} from '@studio/database';
import { found, NotFound } from '../../http/problem.js';
import { AppointmentsService } from '../appointments/index.js';
import { answerOffer } from './answer-offer.js';
import { offerActionsIn } from './states.js';
import type { SlotOfferResponse } from './waiting-list.dto.js';
import { OfferAnswered } from './waiting-list.errors.js';
import * as queries from './waiting-list.queries.js';

@Injectable()
export class SlotOffersService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly appointments: AppointmentsService,
  ) {}

  async get(ctx: TenantContext, id: string): Promise<SlotOfferResponse> {
    const key = { studioId: ctx.studioId, id };
    return toOffer(found(await this.transaction.read(ctx, (sql) => queries.findOffer(sql, key))));
  }

  async list(ctx: TenantContext, wishId: string): Promise<SlotOfferResponse[]> {
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      found(await queries.findWish(sql, { studioId, id: wishId }));
      return (await queries.listOffers(sql, { studioId, wishId })).map(toOffer);
    });
  }

  async answer(ctx: TenantContext, id: string, accepted: boolean): Promise<SlotOfferResponse> {
    return this.transaction.run(ctx, async (tx) =>
      toOffer(await answerOffer(tx, ctx, this.appointments, { id, accepted })),
    );
  }

  /** What the page of a one-time link shows: the offer while it is open. */
  async shown(link: string): Promise<queries.ShownOffer> {
    const token = tokenOf(link);
    return this.transaction.read(token, async (sql) => {
      await checkLink(sql, token);
      const { state } = found(await queries.findOffer(sql, token));
      if (state !== 'open') throw new OfferAnswered(state);
      return queries.getShownOffer(sql, token);
    });
  }

  /** The client's own answer. */
  async answerByLink(link: string, accepted: boolean, requestId: string): Promise<queries.ShownOffer> {
    const token = tokenOf(link);
    const { studioId, id } = token;
    const ctx = { studioId, userId: null, roles: [], requestId };
    return this.transaction.run(ctx, async (tx) => {
      await checkLink(tx, token);
      await answerOffer(tx, ctx, this.appointments, { id, accepted });
      return queries.getShownOffer(tx, token);
    });
  }
}

function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new NotFound();
  return token;
}

/** @throws NotFound for a link that never was */
async function checkLink(sql: SqlRunner, { studioId, id, secret }: TenantToken): Promise<void> {
  const hash = await queries.findLinkHash(sql, { studioId, id });
  if (!hash || !hashesEqual(hash, secretHash(secret))) throw new NotFound();
}

const toOffer = (offer: queries.OfferRecord): SlotOfferResponse => ({
  ...offer,
  allowed: offerActionsIn(offer.state),
});
