import { Body, Controller, Get, Param, Patch, Post, Put, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ChangeWishRequest,
  CreateWishRequest,
  ListWishesQuery,
  WaitingListSettingsRequest,
  WaitingListSettingsResponse,
  WishPage,
  WishResponse,
} from './waiting-list.dto.js';
import { WaitingListService } from './waiting-list.service.js';

/** 409 `waiting-list.not-possible` names the state and what it allows. */
const change = { returns: WishResponse, problems: [400, 404, 409], ifMatch: true } as const;

@ApiTags('Waiting list')
@Controller('v1')
export class WaitingListController {
  constructor(private readonly wishes: WaitingListService) {}

  @Post('waiting-list')
  @Describe({
    id: 'createWish',
    summary: 'Have a client wait for a time',
    description:
      'A time that is free, or comes free, is offered to the first whose wish it fits: held for them, told by message, and after a while offered to the next.',
    returns: WishResponse,
    status: 201,
    problems: [400, 409, 422],
    versioned: true,
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateWishRequest): Promise<WishResponse> {
    return this.wishes.create(ctx, request);
  }

  @Get('waiting-list')
  @Describe({
    id: 'listWishes',
    summary: 'Who waits for what, the longest waiting first',
    returns: WishPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListWishesQuery): Promise<WishPage> {
    return this.wishes.list(ctx, query);
  }

  @Get('waiting-list/:wishId')
  @Describe({ id: 'getWish', summary: 'One wish', returns: WishResponse, problems: [404], versioned: true })
  get(@Ctx() ctx: TenantContext, @Param('wishId', idPipe) id: string): Promise<WishResponse> {
    return this.wishes.get(ctx, id);
  }

  @Patch('waiting-list/:wishId')
  @Describe({
    ...change,
    id: 'changeWish',
    summary: 'Wish otherwise; the place in the list stays',
    problems: [400, 404, 409, 422],
  })
  change(
    @Ctx() ctx: TenantContext,
    @Param('wishId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: ChangeWishRequest,
  ): Promise<WishResponse> {
    return this.wishes.change(ctx, id, version, request);
  }

  @Post('waiting-list/:wishId/withdrawal')
  @Describe({ ...change, id: 'withdrawWish', summary: 'The client does not wait any more' })
  withdraw(
    @Ctx() ctx: TenantContext,
    @Param('wishId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<WishResponse> {
    return this.wishes.withdraw(ctx, id, version);
  }

  @Post('waiting-list/:wishId/resumption')
  @Describe({ ...change, id: 'resumeWish', summary: 'The client was asked, and still waits' })
  resume(
    @Ctx() ctx: TenantContext,
    @Param('wishId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<WishResponse> {
    return this.wishes.resume(ctx, id, version);
  }

  @Get('waiting-list-settings')
  @Describe({
    id: 'getWaitingListSettings',
    summary: 'How long an offer is kept',
    returns: WaitingListSettingsResponse,
  })
  settings(@Ctx() ctx: TenantContext): Promise<WaitingListSettingsResponse> {
    return this.wishes.settings(ctx);
  }

  @Put('waiting-list-settings')
  @Describe({
    id: 'changeWaitingListSettings',
    summary: 'Keep offers for longer, or not so long, from now on',
    returns: WaitingListSettingsResponse,
    problems: [400],
  })
  changeSettings(
    @Ctx() ctx: TenantContext,
    @Body() request: WaitingListSettingsRequest,
  ): Promise<WaitingListSettingsResponse> {
    return this.wishes.changeSettings(ctx, request);
  }
}
