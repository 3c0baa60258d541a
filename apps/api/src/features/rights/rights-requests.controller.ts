import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ExtendRightsRequest,
  FulfilRightsRequest,
  IdentityCheckedRequest,
  ListRightsRequestsQuery,
  RecordRightsRequest,
  RefuseRightsRequest,
  RightsRequestPage,
  RightsRequestResponse,
} from './rights-requests.dto.js';
import { RightsRequestsService } from './rights-requests.service.js';

const step =
  'A step that cannot follow is refused with the state of the request and the states `allowed` next.';

@ApiTags('Rights of the person')
@Controller('v1')
export class RightsRequestsController {
  constructor(private readonly requests: RightsRequestsService) {}

  @Post('clients/:clientId/rights-requests')
  @Describe({
    id: 'recordRightsRequest',
    summary: 'Record what a person asks of the studio about their own data',
    description: 'It has to be answered within a month; the owner is told a week before.',
    returns: RightsRequestResponse,
    status: 201,
    problems: [400, 404, 409],
    versioned: true,
    once: true,
  })
  record(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: RecordRightsRequest,
  ): Promise<RightsRequestResponse> {
    return this.requests.record(ctx, clientId, request);
  }

  @Get('rights-requests')
  @Describe({
    id: 'listRightsRequests',
    summary: 'Requests of persons about their data, by time of recording',
    returns: RightsRequestPage,
    problems: [400, 404],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListRightsRequestsQuery): Promise<RightsRequestPage> {
    return this.requests.list(ctx, query);
  }

  @Get('rights-requests/:rightsRequestId')
  @Describe({
    id: 'getRightsRequest',
    summary: 'A request, what may follow, and what the studio can tell the person',
    returns: RightsRequestResponse,
    problems: [404],
    versioned: true,
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) id: string,
  ): Promise<RightsRequestResponse> {
    return this.requests.get(ctx, id);
  }

  @Post('rights-requests/:rightsRequestId/identity-check')
  @Describe({
    id: 'checkRightsRequestIdentity',
    summary: 'Write down how it was made sure who asks',
    description: step,
    returns: RightsRequestResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  checkIdentity(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() { how }: IdentityCheckedRequest,
  ): Promise<RightsRequestResponse> {
    return this.requests.checkIdentity(ctx, id, version, how);
  }

  @Post('rights-requests/:rightsRequestId/extension')
  @Describe({
    id: 'extendRightsRequest',
    summary: 'Take up to two months more, once',
    returns: RightsRequestResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  extend(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: ExtendRightsRequest,
  ): Promise<RightsRequestResponse> {
    return this.requests.extend(ctx, id, version, request);
  }

  @Post('rights-requests/:rightsRequestId/refusal')
  @Describe({
    id: 'refuseRightsRequest',
    summary: 'Refuse a request, with the reason',
    description: step,
    returns: RightsRequestResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  refuse(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() { reason }: RefuseRightsRequest,
  ): Promise<RightsRequestResponse> {
    return this.requests.refuse(ctx, id, version, reason);
  }

  @Post('rights-requests/:rightsRequestId/fulfilment')
  @Describe({
    id: 'fulfilRightsRequest',
    summary: 'Do what the person asked for',
    description:
      'A copy must have been made; a restricted record is only kept from now on; an erasure is carried out by the ' +
      `worker within minutes, and what a law asks to be kept is erased when its time is over. ${step}`,
    returns: RightsRequestResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  fulfil(
    @Ctx() ctx: TenantContext,
    @Param('rightsRequestId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: FulfilRightsRequest,
  ): Promise<RightsRequestResponse> {
    return this.requests.fulfil(ctx, id, version, request);
  }

  @Post('clients/:clientId/restriction-end')
  @Describe({
    id: 'endRestriction',
    summary: 'Use a restricted record again; tell the person before',
    problems: [404, 409],
  })
  endRestriction(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<void> {
    return this.requests.endRestriction(ctx, clientId);
  }
}
