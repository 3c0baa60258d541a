import { Controller, Get, Param, Post, Res, UseFilters } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Operation } from '../../http/documentation.js';
import { RequestId } from '../../http/request-context.js';
import { sendPage } from '../intake-pages/index.js';
import { OfferPageFilter } from './offer-page.filter.js';
import { answeredPage, offerPage } from './offer-pages.js';
import { SlotOffersService } from './slot-offers.service.js';

/** The page of a one-time link to an offer: plain HTML and two forms. To look at it answers nothing. */
@ApiExcludeController()
@Controller('offers/:link')
@Operation('answerOfferPages')
@UseFilters(OfferPageFilter)
export class OfferPagesController {
  constructor(private readonly offers: SlotOffersService) {}

  @Get()
  async show(@Param('link') link: string, @Res() reply: FastifyReply): Promise<void> {
    sendPage(reply, offerPage(await this.offers.shown(link), `/offers/${link}`));
  }

  @Post('acceptance')
  async accept(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    sendPage(reply, answeredPage(await this.offers.answerByLink(link, true, requestId), true));
  }

  @Post('refusal')
  async decline(
    @Param('link') link: string,
    @RequestId() requestId: string,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    sendPage(reply, answeredPage(await this.offers.answerByLink(link, false, requestId), false));
  }
}
