import { Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { SlotOffersService } from './slot-offers.service.js';
import { SlotOfferResponse } from './waiting-list.dto.js';

const answer = { returns: SlotOfferResponse, problems: [404, 409] } as const;
const once =
  'An offer is answered once: 409 `slot-offers.not-open` tells what became of it. It has no version, since nothing but an answer changes it.';

@ApiTags('Waiting list')
@Controller('v1')
export class SlotOffersController {
  constructor(private readonly offers: SlotOffersService) {}

  @Get('waiting-list/:wishId/offers')
  @Describe({
    id: 'listSlotOffers',
    summary: 'Times that were offered for a wish, newest first',
    returns: [SlotOfferResponse],
    problems: [404],
  })
  list(@Ctx() ctx: TenantContext, @Param('wishId', idPipe) wishId: string): Promise<SlotOfferResponse[]> {
    return this.offers.list(ctx, wishId);
  }

  @Get('slot-offers/:slotOfferId')
  @Describe({ id: 'getSlotOffer', summary: 'One offer', returns: SlotOfferResponse, problems: [404] })
  get(@Ctx() ctx: TenantContext, @Param('slotOfferId', idPipe) id: string): Promise<SlotOfferResponse> {
    return this.offers.get(ctx, id);
  }

  @Post('slot-offers/:slotOfferId/acceptance')
  @Describe({
    ...answer,
    id: 'acceptSlotOffer',
    summary: 'The client takes the time; it is booked',
    description: once,
  })
  accept(@Ctx() ctx: TenantContext, @Param('slotOfferId', idPipe) id: string): Promise<SlotOfferResponse> {
    return this.offers.answer(ctx, id, true);
  }

  @Post('slot-offers/:slotOfferId/refusal')
  @Describe({
    ...answer,
    id: 'declineSlotOffer',
    summary: 'The client does not take the time, and waits for another',
    description: once,
  })
  decline(@Ctx() ctx: TenantContext, @Param('slotOfferId', idPipe) id: string): Promise<SlotOfferResponse> {
    return this.offers.answer(ctx, id, false);
  }
}
