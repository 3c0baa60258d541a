import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  AddressedCalendarFeedResponse,
  CalendarFeedPage,
  CalendarFeedResponse,
  CreateCalendarFeedRequest,
  ListCalendarFeedsQuery,
} from './calendar-feeds.dto.js';
import { CalendarFeedsService } from './calendar-feeds.service.js';

@ApiTags('Calendars')
@Controller('v1/calendar-feeds')
export class CalendarFeedsController {
  constructor(private readonly feeds: CalendarFeedsService) {}

  @Post()
  @Describe({
    id: 'createCalendarFeed',
    summary: 'A secret address at which a calendar program reads the visits of a fitter or a room',
    description:
      'The feed (RFC 5545) runs from two months back to as far ahead as visits are booked. A fitter may have one of ' +
      'their own, the owner of anybody; one of a room everybody.',
    returns: AddressedCalendarFeedResponse,
    status: 201,
    problems: [400, 422],
  })
  create(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateCalendarFeedRequest,
  ): Promise<AddressedCalendarFeedResponse> {
    return this.feeds.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listCalendarFeeds',
    summary: 'The feeds there are; never their addresses',
    returns: CalendarFeedPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListCalendarFeedsQuery): Promise<CalendarFeedPage> {
    return this.feeds.list(ctx, query);
  }

  @Post(':calendarFeedId/renewal')
  @Describe({
    id: 'renewCalendarFeed',
    summary: 'Another address for the feed; the one before stops at once',
    returns: AddressedCalendarFeedResponse,
    problems: [404, 409],
  })
  renew(
    @Ctx() ctx: TenantContext,
    @Param('calendarFeedId', idPipe) id: string,
  ): Promise<AddressedCalendarFeedResponse> {
    return this.feeds.renew(ctx, id);
  }

  @Post(':calendarFeedId/revocation')
  @Describe({
    id: 'revokeCalendarFeed',
    summary: 'Stop the feed for good',
    returns: CalendarFeedResponse,
    problems: [404, 409],
  })
  revoke(
    @Ctx() ctx: TenantContext,
    @Param('calendarFeedId', idPipe) id: string,
  ): Promise<CalendarFeedResponse> {
    return this.feeds.revoke(ctx, id);
  }
}
